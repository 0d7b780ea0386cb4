import { describe, expect, it } from 'vitest';
import { flattenPath } from '../../../src/geometry/flatten.ts';
import { distance, type Point } from '../../../src/geometry/point.ts';
import { transformPath, transformPoint } from '../../../src/geometry/transform-path.ts';
import type { Picture } from '../../../src/scan/picture.ts';
import { findOutlines } from '../../../src/scan/rough/find-outlines.ts';
import { closeSheet, smallSheet } from '../../support/scans/cases.ts';
import type { Truth } from '../../support/scans/lay-out.ts';
import { makeScan } from '../../support/scans/make-scan.ts';
import type { ScanSpec } from '../../support/scans/scan-spec.ts';
import { box, drawn } from './drawn.ts';

const WORN = { gaps: 4, widest: 0.6, faded: 1, creases: 2, pencil: 2 };
const SCANNER = { turn: 1.3, shear: 0.003, scaleX: 1.015, noise: 3, lamp: { slope: 0.2, vignette: 0.1 }, seed: 11 };
const line = { kind: 'line' as const, dpi: 150, ...smallSheet(), ...SCANNER };
const cutout = { ...line, kind: 'cutout' as const };

const awayFrom = (polygon: readonly Point[], p: Point): number => {
  let least = Infinity;
  for (const [k, b] of polygon.entries()) {
    const a = polygon.at(k - 1)!;
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const along = ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy || 1);
    const t = Math.max(0, Math.min(1, along));
    least = Math.min(least, Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy));
  }
  return least;
};

/** For each true outline, in millimetres: how far the nearest found one strays from it, away from corners and at the corners. */
const strays = (truth: Truth, polygons: readonly (readonly Point[])[], clear: (p: Point) => boolean) => {
  const shapes = truth.panels.map(({ outline, corners }) => ({
    points: flattenPath(transformPath(outline, truth.toPicture), 0.1),
    corners: corners.map((c) => transformPoint(c, truth.toPicture)),
  }));
  const square = truth.square?.corners.map((c) => transformPoint(c, truth.toPicture));
  if (square !== undefined) shapes.push({ points: square, corners: square });
  return shapes.map(({ points, corners }) => {
    const all = polygons.map((polygon) => {
      const sides = polygon.filter((p) => clear(p) && corners.every((c) => distance(c, p) > 2 * truth.pxPerMm));
      return {
        side: Math.max(...sides.map((p) => awayFrom(points, p))) / truth.pxPerMm,
        corner: Math.max(...corners.map((c) => awayFrom(polygon, c))) / truth.pxPerMm,
      };
    });
    return all.toSorted((a, b) => a.corner - b.corner)[0] ?? { side: Infinity, corner: Infinity };
  });
};

const LINES: Record<string, Partial<ScanSpec>> = {
  clean: {},
  worn: { worn: WORN },
  'at 300 dpi': { dpi: 300, jpeg: 75, worn: WORN },
  thin: { dpi: 300, lineWidth: 0.3, worn: WORN },
  thick: { lineWidth: 1 },
  'in black and white': { dpi: 300, lamp: { slope: 0.05, vignette: 0.03 }, threshold: 140 },
  'under very uneven light': { lamp: { slope: 0.4, vignette: 0.3 } },
  turned: { turn: -4 },
  faint: { ink: 140 },
  'with a dark lid round the sheet': { lid: { grey: 40, margin: 6 } },
  'with the shadow of the sheet': { lid: { grey: 120, margin: 1 } },
  'on grey paper under a light lid': {
    paper: 225,
    lid: { grey: 252, margin: 8 },
    lamp: { slope: 0.12, vignette: 0.06 },
  },
  'in a printed frame': { frame: 3 },
  'with a dashed size inside': { panels: [{ ...smallSheet().panels[0]!, second: -3 }], worn: WORN },
  'with a dashed size outside': { panels: [{ ...smallSheet().panels[0]!, second: 2 }], worn: WORN },
};

describe('the outlines of a printed sheet', () => {
  it.each(Object.entries(LINES))('%s are its panel and the test square, and no more', async (_, change) => {
    const { picture, truth } = await makeScan({ ...line, ...change });
    const { kind, outlines } = findOutlines(picture, truth.pxPerMm);
    expect(kind).toBe('line');
    expect(outlines.map(({ edge, within }) => ({ edge, within }))).toEqual([{ edge: 'ink' }, { edge: 'ink' }]);
    const found = outlines.map(({ points }) => points);
    for (const { side, corner } of strays(truth, found, () => true)) {
      expect(side).toBeLessThan(0.35);
      expect(corner).toBeLessThan(1.2);
    }
  });
});

/** The picture with a patch of one grey laid on it, in millimetres. */
const covered = (picture: Picture, pxPerMm: number, [x, y, w, h]: readonly number[], grey: number): Picture => {
  const bytes = picture.grey.slice();
  for (let row = Math.round(y! * pxPerMm); row < Math.min(picture.height, (y! + h!) * pxPerMm); row += 1) {
    const from = row * picture.width + Math.round(x! * pxPerMm);
    bytes.fill(grey, from, Math.min((row + 1) * picture.width, from + Math.round(w! * pxPerMm)));
  }
  return { ...picture, grey: bytes };
};

/** The picture with pale lines `apart` millimetres from each other, both ways, printed under everything. */
const ruled = (picture: Picture, pxPerMm: number, apart: number, grey: number): Picture => {
  const bytes = picture.grey.slice();
  const step = apart * pxPerMm;
  for (let y = 0, at = 0; y < picture.height; y += 1) {
    for (let x = 0; x < picture.width; x += 1, at += 1) {
      if (Math.min(y % step, x % step) < 1.3) bytes[at] = Math.min(bytes[at]!, grey);
    }
  }
  return { ...picture, grey: bytes };
};

describe('a sheet of ruled paper', () => {
  it.each([
    [5, 190],
    [5, 150],
    [10, 170],
    [2, 190],
  ])('with lines every %d mm of grey %d shows its panel and the test square, and no more', async (apart, grey) => {
    const { picture, truth } = await makeScan({ ...line, dpi: 200 });
    const { outlines } = findOutlines(ruled(picture, truth.pxPerMm, apart, grey), truth.pxPerMm);
    expect(outlines.map(({ edge, within }) => ({ edge, within }))).toEqual([{ edge: 'ink' }, { edge: 'ink' }]);
    const found = outlines.map(({ points }) => points);
    for (const { side, corner } of strays(truth, found, () => true)) {
      expect(side).toBeLessThan(0.4);
      expect(corner).toBeLessThan(1.2);
    }
  });
});

describe('what lies on a printed sheet', () => {
  it.each([
    ['a clip at its edge', [50, 0, 12, 8], 40],
    ['a finger', [0, 20, 10, 14], 110],
    ['a grey ruler', [4, 6, 18, 75], 180],
  ] as const)('%s does not make it a cut-out', async (_, patch, grey) => {
    const { picture, truth } = await makeScan(line);
    const { kind, outlines } = findOutlines(covered(picture, truth.pxPerMm, patch, grey), truth.pxPerMm);
    expect(kind).toBe('line');
    const found = outlines.map(({ points }) => points);
    for (const { corner } of strays(truth, found, () => true)) expect(corner).toBeLessThan(1.2);
  });
});

const PIECES: Record<string, Partial<ScanSpec>> = {
  'lighter than the ground': {},
  'creased and marked': { dpi: 300, worn: { creases: 3, pencil: 3 }, jpeg: 75 },
  'on cardboard': { ground: 150 },
  'under uneven light': { ground: 15, lamp: { slope: 0.4, vignette: 0.3 } },
  'with thick lines over their edges': { lineWidth: 1, ground: 25 },
};

describe('cut-out pieces', () => {
  it.each(Object.entries(PIECES))('%s are found with their cuts, and the square on its card', async (_, change) => {
    const { picture, truth } = await makeScan({ ...cutout, ...change });
    const { kind, outlines } = findOutlines(picture, truth.pxPerMm);
    expect(kind).toBe('cutout');
    expect(outlines.map(({ edge }) => edge)).toEqual(['lighter', 'lighter', 'ink']);
    expect(outlines[2]!.within).toBe(1);
    const notches = truth.panels.flatMap((p) => p.notches.map(({ start }) => transformPoint(start, truth.toPicture)));
    const clear = (p: Point): boolean => notches.every((n) => distance(p, n) > 8 * truth.pxPerMm);
    const found = outlines.map(({ points }) => points);
    for (const { side, corner } of strays(truth, found, clear)) {
      expect(side).toBeLessThan(0.25);
      expect(corner).toBeLessThan(0.8);
    }
    const tips = truth.panels.flatMap((p) => p.notches.map(({ end }) => transformPoint(end, truth.toPicture)));
    for (const tip of tips) expect(awayFrom(outlines[0]!.points, tip) / truth.pxPerMm).toBeLessThan(2);
  });

  it('darker than the ground are found too', async () => {
    const { picture, truth } = await makeScan({ ...cutout, ...closeSheet(), paper: 120, ground: 235 });
    const { kind, outlines } = findOutlines(picture, truth.pxPerMm);
    expect(kind).toBe('cutout');
    expect(outlines.map(({ edge }) => edge).toSorted()).toEqual(['darker', 'darker', 'darker', 'ink']);
  });

  it('cut off by the border are counted and left out', async () => {
    const window = { x: 37, y: 0, width: 43, height: 110 };
    const { picture, truth } = await makeScan({ ...cutout, window });
    const { outlines, cut } = findOutlines(picture, truth.pxPerMm);
    expect({ outlines: outlines.length, cut }).toEqual({ outlines: 0, cut: 1 });
  });
});

/** A box with a gap in its left side. */
const withGap = (gap: number): Picture =>
  drawn(80, 80, [...LEFT.slice(0, 3), [10, 70, 10, 40 + gap / 2 + 0.25], [10, 40 - gap / 2 - 0.25, 10, 10]]);

const boxes = (picture: Picture): (number | undefined)[][] =>
  findOutlines(picture, 6, 'line')
    .outlines.map(({ points, within }) => {
      const [xs, ys] = [points.map(({ x }) => x / 6), points.map(({ y }) => y / 6)];
      return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)].map(Math.round).concat(within ?? -1);
    })
    .toSorted((a, b) => a[0]! - b[0]!);

const LEFT = box(10, 10, 25, 60);
const RIGHT = box(45, 10, 25, 60);
const TWO = [
  [10, 10, 35, 70, -1],
  [45, 10, 70, 70, -1],
];

describe('lines that meet', () => {
  it('two panels tied by two strokes are two, and what lies between is none', () => {
    expect(boxes(drawn(80, 80, [...LEFT, ...RIGHT, [35, 25, 45, 25], [35, 45, 45, 48]]))).toEqual(TWO);
  });

  it('one guide line through two panels leaves both whole', () => {
    expect(boxes(drawn(80, 80, [...LEFT, ...RIGHT, [5, 40, 75, 40]]))).toEqual(TWO);
  });

  it('two panels that touch in a corner are two', () => {
    expect(boxes(drawn(80, 80, [...box(10, 10, 25, 30), ...box(35, 40, 25, 30)]))).toEqual([
      [10, 10, 35, 40, -1],
      [35, 40, 60, 70, -1],
    ]);
  });

  it('a waist line from corner to corner leaves the panel whole', () => {
    expect(boxes(drawn(80, 80, [...LEFT, [10, 10, 35, 70]]))).toEqual([TWO[0]]);
  });

  it('a stitching line within a cutting line is an outline within, also where a waist line crosses both', () => {
    const inner = box(20, 18, 42, 44);
    const outer = box(10, 10, 60, 60);
    expect(boxes(drawn(80, 80, [...outer, ...inner, [10, 40, 70, 40]]))).toEqual([
      [10, 10, 70, 70, -1],
      [20, 18, 62, 62, expect.any(Number)],
    ]);
  });

  it('a gap of 0.6 mm is bridged, of 2 mm is not', () => {
    expect(boxes(withGap(0.6))).toEqual([TWO[0]]);
    expect(boxes(withGap(2))).toEqual([]);
  });

  it('an empty sheet has none, nor has a picture of one pixel', () => {
    expect(boxes(drawn(40, 40, []))).toEqual([]);
    expect(findOutlines({ width: 1, height: 1, grey: new Uint8Array(1) }, 6).outlines).toEqual([]);
  });
});
