import { beforeAll, describe, expect, it } from 'vitest';
import { flattenPath } from '../../../src/geometry/flatten.ts';
import { compose, inverse, rotation, scaling, type Matrix } from '../../../src/geometry/matrix.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { transformPoint } from '../../../src/geometry/transform-path.ts';
import { joinScans, type JoinedScans } from '../../../src/scan/join/join-scans.ts';
import { sameScanner } from '../../../src/scan/join/same-scanner.ts';
import { LIGHT, type Picture } from '../../../src/scan/picture.ts';
import { closeSheet, fullSheet, smallSheet } from '../../support/scans/cases.ts';
import type { Truth } from '../../support/scans/lay-out.ts';
import { makeStrips, type Strip } from '../../support/scans/make-strips.ts';
import type { ScanSpec } from '../../support/scans/scan-spec.ts';
import { caught } from '../../support/caught.ts';

interface Made {
  readonly picture: Picture;
  readonly truth: Truth;
}

const SCANNER = {
  shear: 0.003,
  scaleX: 1.02,
  scaleY: 0.985,
  blur: 0.7,
  noise: 3,
  jpeg: 75,
  lamp: { slope: 0.2, toward: 30, vignette: 0.1 },
};

/** Two strips of a sheet, one below the other, that share `overlap` millimetres. */
const upperAndLower = (
  { width, height }: { width: number; height: number },
  overlap: number,
  turns: readonly [number, number],
): Strip[] => {
  const tall = (height + overlap) / 2;
  return [
    { ...SCANNER, window: { x: 0, y: 0, width, height: tall }, turn: turns[0] },
    { ...SCANNER, window: { x: 0, y: height - tall, width, height: tall }, turn: turns[1] },
  ];
};

const NAMES = ['a.png', 'b.png', 'c.png', 'd.png'];

/** The scale of the scanner comes from the scan with number `from`, where the test square would be. */
const join = (scans: readonly Made[], from = 0): JoinedScans =>
  joinScans(scans.map(({ picture }, k) => ({ name: NAMES[k]!, picture, toMm: sameScanner(scans[from]!.truth.toMm) })));

/** From the true millimetres of the sheet to those of the joined picture, as scan `k` tells. */
const asTold = (scans: readonly Made[], joined: JoinedScans, k: number): Matrix =>
  compose(joined.toMm, compose(joined.places[k]!, scans[k]!.truth.toPicture));

/** How far the places of each later scan are from where they would be, were it placed as truly as the first; `along` millimetres beyond. */
const farthestOff = (scans: readonly Made[], joined: JoinedScans): number => {
  const first = asTold(scans, joined, 0);
  return Math.max(
    ...scans.slice(1).flatMap(({ truth }, i) => {
      const told = asTold(scans, joined, i + 1);
      return [0, truth.width].flatMap((x) =>
        [0, truth.height].map((y) => {
          const sheet = transformPoint({ x, y }, truth.toMm);
          const [p, q] = [transformPoint(sheet, first), transformPoint(sheet, told)];
          return Math.hypot(p.x - q.x, p.y - q.y);
        }),
      );
    }),
  );
};

/** By how much a line of 300 mm would end off its place, for the turn that scan `k` is off. */
const turnedOff = (scans: readonly Made[], joined: JoinedScans, k: number): number => {
  const off = compose(inverse(asTold(scans, joined, 0)), asTold(scans, joined, k));
  return 300 * Math.abs(Math.atan2(off.b - off.c, off.a + off.d));
};

const lightAt = ({ width, grey }: Picture, { x, y }: Point): number => {
  const i = Math.floor(x - 0.5);
  const j = Math.floor(y - 0.5);
  const [s, t] = [x - 0.5 - i, y - 0.5 - j];
  const at = (u: number, v: number): number => LIGHT[grey[(j + v) * width + i + u]!]!;
  return (at(0, 0) * (1 - s) + at(1, 0) * s) * (1 - t) + (at(0, 1) * (1 - s) + at(1, 1) * s) * t;
};

/**
 * How far the middle of the ink along the panels' outlines lies from the truth, the millimetres of the first scan taken as true: the
 * centre of darkness across the line. Corners and whatever else makes the darkness run on are left out.
 */
const inkOff = (scans: readonly Made[], joined: JoinedScans): number[] => {
  const { truth } = scans[0]!;
  const toPicture = compose(joined.places[0]!, truth.toPicture);
  const reach = 0.55;
  return truth.panels.flatMap(({ outline }) => {
    const points = flattenPath(outline, 0.002);
    return points.slice(1).flatMap((end, k) => {
      const start = points[k]!;
      const length = Math.hypot(end.x - start.x, end.y - start.y);
      const [nx, ny] = [(start.y - end.y) / length, (end.x - start.x) / length];
      const count = Math.ceil(length / 0.8);
      return Array.from({ length: count }, (_, m) => (m + 0.5) / count).flatMap((along) => {
        const x = start.x + (end.x - start.x) * along;
        const y = start.y + (end.y - start.y) * along;
        const dark = Array.from({ length: 111 }, (_u, i) => {
          const across = (i - 55) * 0.01;
          return 1 - lightAt(joined.picture, transformPoint({ x: x + nx * across, y: y + ny * across }, toPicture));
        });
        const [left, right] = [dark[0]!, dark[110]!];
        const paper = (i: number): number => left + ((right - left) * i) / 110;
        const ink = dark.map((value, i) => value - paper(i));
        const sum = ink.reduce((a, b) => a + b, 0);
        if (Math.abs(left - right) > 0.03 || sum < 20) return [];
        return [Math.abs(ink.reduce((a, b, i) => a + b * (i - 55), 0) / sum / 55) * reach];
      });
    });
  });
};

describe('two strips of printed outlines', () => {
  const spec: ScanSpec = { kind: 'line', dpi: 150, ...fullSheet(), seed: 3, dust: 12, worn: { creases: 2, pencil: 3 } };
  let scans: Made[];
  let joined: JoinedScans;
  beforeAll(async () => {
    scans = await makeStrips(spec, upperAndLower(spec.sheet, 20, [1.4, -2.1]));
    joined = join(scans, 1);
  }, 60_000);

  it('come together within 0.02 mm, to the farthest corner', () => {
    expect(farthestOff(scans, joined)).toBeLessThan(0.02);
    expect(turnedOff(scans, joined, 1)).toBeLessThan(0.04);
  });

  it('have their whole length in true millimetres', () => {
    const told = asTold(scans, joined, 1);
    const [top, bottom] = [
      { x: 20, y: 5 },
      { x: 140, y: 200 },
    ];
    const [p, q] = [transformPoint(top, asTold(scans, joined, 0)), transformPoint(bottom, told)];
    expect(Math.hypot(p.x - q.x, p.y - q.y)).toBeCloseTo(Math.hypot(120, 195), 1.7);
  });

  it('tell how far the shared ink stays apart', () => {
    expect(joined.misfit).toBeGreaterThan(0.0005);
    expect(joined.misfit).toBeLessThan(0.01);
    expect(joined.worst).toBeGreaterThan(joined.misfit);
    expect(joined.worst).toBeLessThan(0.05);
    expect(joined.joints.map(({ name }) => name)).toEqual(['b.png']);
    expect(joined.joints[0]!.share).toBeGreaterThan(0.9);
  });

  it('have the resolution of the scan, and millimetres by it alone', () => {
    expect(joined.pxPerMm).toBeCloseTo((150 / 25.4) * 1.02, 9);
    expect(joined.toMm).toEqual(scaling(1 / joined.pxPerMm));
  });

  it('show every line where it is, in the strips and in the seam', () => {
    const off = inkOff(scans, joined);
    expect(off.length).toBeGreaterThan(1000);
    const sorted = off.toSorted((a, b) => a - b);
    expect(sorted[Math.floor(off.length * 0.5)]!).toBeLessThan(0.006);
    expect(sorted[Math.floor(off.length * 0.99)]!).toBeLessThan(0.03);
  });
});

/** The same scan with the scanner's dark frame along all four sides, 3 mm deep at 150 dpi. */
const framed = (made: Made): Made => {
  const { width, height, grey } = made.picture;
  const painted = Uint8Array.from(grey);
  const deep = 18;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      if (x < deep || y < deep || x >= width - deep || y >= height - deep) painted[y * width + x] = 25;
    }
  }
  return { ...made, picture: { width, height, grey: painted } };
};

describe('other strips', () => {
  let pair: Made[];
  beforeAll(async () => {
    const spec: ScanSpec = { kind: 'line', dpi: 150, ...closeSheet(), seed: 8 };
    pair = await makeStrips(spec, upperAndLower(spec.sheet, 30, [1, -1]));
  });

  it('of cut-out pieces come together by their edges, and the ground goes on around them', async () => {
    const spec: ScanSpec = { kind: 'cutout', dpi: 150, ...closeSheet(), seed: 6, dust: 12 };
    const scans = await makeStrips(spec, upperAndLower(spec.sheet, 24, [3, -3]));
    const joined = join(scans);
    expect(farthestOff(scans, joined)).toBeLessThan(0.02);
    const { width, height, grey } = joined.picture;
    const corners = [0, width - 1, (height - 1) * width, height * width - 1].map((at) => grey[at]!);
    for (const corner of corners) expect(Math.abs(corner - 66)).toBeLessThan(14);
  });

  it('may lie upside down', async () => {
    const spec: ScanSpec = { kind: 'line', dpi: 150, ...closeSheet(), seed: 4 };
    const scans = await makeStrips(spec, upperAndLower(spec.sheet, 20, [1, 178]));
    const joined = join(scans);
    expect(farthestOff(scans, joined)).toBeLessThan(0.02);
    expect(joined.joints[0]!.isTurnedRound).toBe(true);
  });

  it('may be three, each joined to all before it', async () => {
    const spec: ScanSpec = { kind: 'line', dpi: 150, ...closeSheet(), seed: 5 };
    const window = { x: 0, y: 0, width: 82, height: 48 };
    const scans = await makeStrips(
      spec,
      [1, -2, 3].map((turn, k) => ({ ...SCANNER, window: { ...window, y: k * 27 }, turn })),
    );
    const joined = join(scans, 2);
    expect(joined.joints.map(({ name }) => name)).toEqual(['b.png', 'c.png']);
    expect(farthestOff(scans, joined)).toBeLessThan(0.03);
  });

  it('may lie side by side at 300 dpi, in black and white', async () => {
    const spec: ScanSpec = { kind: 'line', dpi: 300, ...smallSheet(), seed: 2, threshold: 140 };
    const { jpeg: _, ...scanner } = SCANNER;
    const strip = { ...scanner, lamp: { slope: 0.05, vignette: 0.02 } };
    const scans = await makeStrips(spec, [
      { ...strip, window: { x: 0, y: 0, width: 50, height: 110 }, turn: 2 },
      { ...strip, window: { x: 28, y: 0, width: 52, height: 110 }, turn: -1 },
    ]);
    expect(farthestOff(scans, join(scans))).toBeLessThan(0.03);
  });

  it('may show the dark frame of the scanner, which leaves no trace in the seam', () => {
    const scans = pair.map(framed);
    const joined = join(scans);
    expect(farthestOff(scans, joined)).toBeLessThan(0.02);
    // Down a way through the seam that meets no line: paper alone.
    const { picture, places } = joined;
    const way = compose(places[0]!, scans[0]!.truth.toPicture);
    const lights = Array.from({ length: 400 }, (_, k) =>
      lightAt(picture, transformPoint({ x: 35.75, y: 31 + k * 0.1 }, way)),
    );
    expect(Math.min(...lights)).toBeGreaterThan(0.55);
  });

  it('stay where they are when the other is typed first', () => {
    const back = pair.toReversed();
    expect(farthestOff(back, join(back))).toBeLessThan(0.02);
  });

  it('as they are made again give the same bytes', () => {
    expect(Buffer.compare(join(pair).picture.grey, join(pair).picture.grey)).toBe(0);
  });
});

/** A sheet of lines alone, drawn for a test: `ink` tells whether there is ink at a place in millimetres. */
const drawn = (ink: (x: number, y: number) => boolean, top: number, turn: number): Picture => {
  const [width, height, fine] = [480, 360, 6];
  const grey = new Uint8Array(width * height);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let covered = 0;
      for (let k = 0; k < 9; k++) {
        const u = (x + ((k % 3) + 0.5) / 3) / fine;
        const v = (y + (Math.floor(k / 3) + 0.5) / 3) / fine;
        if (ink(cos * u - sin * v, sin * u + cos * v + top)) covered++;
      }
      grey[y * width + x] = 235 - Math.round((covered * 190) / 9);
    }
  }
  return { width, height, grey };
};

const near = (value: number, to: number): boolean => Math.abs(value - to) < 0.25;

const lengthways = (x: number): boolean => near(x, 20) || near(x, 47) || near(x, 62);

const cross = (x: number, y: number, cx: number, cy: number): boolean =>
  (near(x, cx) && Math.abs(y - cy) < 5) || (near(y, cy) && Math.abs(x - cx) < 5);

const withCrosses = (x: number, y: number): boolean => lengthways(x) || cross(x, y, 10, 49) || cross(x, y, 72, 51);

const squared = (x: number, y: number): boolean => near(x % 12, 6) || near(y % 12, 6);

const bare = (): boolean => false;

const threeLines = (x: number, y: number): boolean =>
  near(x, y * 0.5 + 5) || near(x, 60 - y * 0.3) || near(y, 50 + x * 0.1);

describe('scans that cannot be joined', () => {
  const toMm = scaling(1 / 6);
  const trouble = (pictures: readonly Picture[], options = {}): string =>
    caught(() =>
      joinScans(
        pictures.map((picture, k) => ({ name: NAMES[k]!, picture, toMm })),
        options,
      ),
    ).message;

  it('show nothing but straight lines along the sheet', () => {
    expect(trouble([drawn(lengthways, 0, 0), drawn(lengthways, 40, 0.02)])).toBe(
      'a.png and b.png share too little to be joined',
    );
  });

  it('are joined once two crosses are drawn on such lines', () => {
    const pictures = [drawn(withCrosses, 0, 0), drawn(withCrosses, 40, 0.02)];
    const { joints } = joinScans(pictures.map((picture, k) => ({ name: NAMES[k]!, picture, toMm })));
    const { place } = joints[0]!;
    expect(Math.atan2(place.b, place.a)).toBeCloseTo(0.02, 3.5);
    expect(Math.hypot(place.e, place.f - 40)).toBeLessThan(0.03);
  });

  it('repeat themselves', () => {
    expect(trouble([drawn(squared, 0, 0), drawn(squared, 36, 0.01)])).toBe(
      'a.png and b.png fit together in more than one place',
    );
  });

  it('show nothing', () => {
    expect(trouble([drawn(bare, 0, 0), drawn(bare, 40, 0)])).toBe('a.png and b.png share too little to be joined');
  });

  it('do not overlap', async () => {
    const spec: ScanSpec = { kind: 'line', dpi: 100, ...closeSheet(), seed: 3 };
    const scans = await makeStrips(spec, [
      { ...SCANNER, window: { x: 0, y: 0, width: 82, height: 46 } },
      { ...SCANNER, window: { x: 0, y: 56, width: 82, height: 46 } },
    ]);
    const error = caught(() => join(scans));
    expect(error.message).toBe('a.png and b.png share too little to be joined');
    expect(error.hint).toMatch(/two crosses/);
  });

  it('were scanned at different scales without saying so', async () => {
    const spec: ScanSpec = { kind: 'line', dpi: 100, ...fullSheet(), seed: 3 };
    const window = { x: 0, y: 63, width: 164, height: 60 };
    const scans = await makeStrips(spec, [
      { ...SCANNER, window, turn: 1 },
      { ...SCANNER, window: { ...window, y: 83 }, turn: -1, scaleX: 0.97 },
    ]);
    expect(caught(() => join(scans)).code).toBe('input');
  });

  it('would be too large', () => {
    expect(trouble([drawn(threeLines, 0, 0), drawn(threeLines, 20, 0.01)], { pixels: 100_000 })).toMatch(
      /over 0 million pixels/,
    );
  });
});

describe('what a scanner does to every scan', () => {
  it('is the scale and the shear of one of its scans, without how the paper lay', () => {
    const own: Matrix = { a: 0.083, b: 0, c: 0.0004, d: 0.086, e: 0, f: 0 };
    for (const turn of [0, 0.05, -0.1, Math.PI]) {
      const told = sameScanner({ ...compose(rotation(turn), own), e: 5, f: -7 });
      expect(told.b).toBe(0);
      expect([told.e, told.f]).toEqual([0, 0]);
      expect(told.a).toBeCloseTo(own.a, 12);
      expect(told.c).toBeCloseTo(own.c, 12);
      expect(told.d).toBeCloseTo(own.d, 12);
    }
  });
});
