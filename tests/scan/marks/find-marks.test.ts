import { describe, expect, it } from 'vitest';
import { flattenPath } from '../../../src/geometry/flatten.ts';
import { nearestPoint } from '../../../src/geometry/nearest-point.ts';
import { transformPath, transformPoint } from '../../../src/geometry/transform-path.ts';
import { line } from '../../../src/geometry/segment.ts';
import { point, type Point } from '../../../src/geometry/point.ts';
import { traceOutline } from '../../../src/scan/outline/trace-outline.ts';
import { findOutlines } from '../../../src/scan/rough/find-outlines.ts';
import { closeSheet, smallSheet } from '../../support/scans/cases.ts';
import { placedMatrix } from '../../support/scans/lay-out.ts';
import { makeScan } from '../../support/scans/make-scan.ts';
import { BASQUE, FRONT, SIDE, SIDE_FRONT, type ScanPanel } from '../../support/scans/scan-panels.ts';
import type { ScanSpec } from '../../support/scans/scan-spec.ts';
import { letterStrokes } from '../../support/scans/stroke-letters.ts';
import { run } from '../../support/shaped-panels.ts';
import { farthestApart, farthestFromChains, foundOn, type FoundOn } from './found-on.ts';

/** What notches, grain and lines across may be out, millimetres. */
const WITHIN = 0.1;

const scanner: Partial<ScanSpec> = {
  turn: 1.4,
  shear: 0.003,
  scaleX: 1.015,
  scaleY: 0.99,
  blur: 0.75,
  lamp: { slope: 0.2, toward: 40, vignette: 0.1 },
  noise: 3,
  dust: 12,
  jpeg: 75,
};

/** Small, so that it is quick at 600 dpi. */
const SIDE_ALONE = { sheet: { width: 46, height: 90 }, panels: [{ panel: SIDE, at: { x: 5, y: 44 } }] };

const scanOf = (panel: ScanPanel, more: Partial<ScanSpec> = {}): ScanSpec => ({
  kind: 'line',
  dpi: 300,
  sheet: { width: 80, height: 100 },
  panels: [{ panel, at: { x: 14, y: 84 } }],
  ...more,
});

/** What is not found as it should be. */
const wrongOn = (found: readonly FoundOn[], kind: 'line' | 'cutout'): string[] =>
  found.flatMap(({ truth, notches, grain, across }) => {
    const all = [
      ['notches', notches, kind === 'line' ? truth.notches : []],
      ['grain', grain, truth.grain],
      ['lines across', across, truth.across],
    ] as const;
    return all.flatMap(([what, these, those]) => {
      const apart = farthestApart(these, those);
      return apart < WITHIN ? [] : [`${what} of ${truth.name}: ${these.length} of ${those.length}, ${apart} mm off`];
    });
  });

describe('marks of whole scans', () => {
  it.each([
    ['lines at 150 dpi', { kind: 'line', dpi: 150, ...smallSheet(), ...scanner, seed: 1 }],
    ['lines at 300 dpi', { kind: 'line', dpi: 300, ...smallSheet(), ...scanner, seed: 2 }],
    ['lines at 600 dpi', { kind: 'line', dpi: 600, ...SIDE_ALONE, ...scanner, blur: 1, seed: 3 }],
    ['1-bit lines', { kind: 'line', dpi: 300, ...closeSheet(), turn: -1.2, noise: 2, threshold: 140, seed: 4 }],
    ['cut-outs at 150 dpi', { kind: 'cutout', dpi: 150, ...smallSheet(), ...scanner, seed: 5 }],
    ['cut-outs at 300 dpi', { kind: 'cutout', dpi: 300, ...closeSheet(), ...scanner, seed: 6 }],
  ] satisfies [string, ScanSpec][])('of %s are all found, within 0.1 mm, and no others', async (_, spec) => {
    expect(wrongOn(await foundOn(spec), spec.kind)).toEqual([]);
  });

  it('are found on worn paper, and pencil strokes across the outline are none', async () => {
    const worn = { gaps: 4, widest: 0.6, faded: 2, creases: 2, pencil: 5 };
    for (const seed of [1, 2]) {
      expect(
        wrongOn(await foundOn({ kind: 'line', dpi: 300, ...smallSheet(), ...scanner, worn, seed }), 'line'),
      ).toEqual([]);
    }
  });

  it('are found on worn pieces, and pencil strokes that reach their edge are none', async () => {
    const worn = { creases: 2, pencil: 5 };
    for (const seed of [1, 2]) {
      expect(
        wrongOn(await foundOn({ kind: 'cutout', dpi: 300, ...smallSheet(), ...scanner, worn, seed }), 'cutout'),
      ).toEqual([]);
    }
  });

  it('leave a dashed second size and letters as art', async () => {
    const second: ScanSpec = {
      ...scanOf(SIDE_FRONT, { ...scanner, seed: 9 }),
      sheet: { width: 80, height: 124 },
      panels: [{ panel: SIDE_FRONT, at: { x: 20, y: 66 }, second: -3 }],
    };
    const found = await foundOn(second);
    expect(wrongOn(found, 'line')).toEqual([]);
    expect(found[0]!.art.length).toBeGreaterThan(25);
    const m = placedMatrix(second.panels[0]!);
    const letter = SIDE_FRONT.letters[0]!.map((p) => transformPoint(p, m));
    expect(farthestFromChains(letter, found[0]!.art)).toBeLessThan(0.3);
  });
});

/** A panel 50 by 70 mm with a bulging right side and nothing on it, its lower left corner at its origin. */
const BARE: ScanPanel = {
  name: 'bare',
  outline: {
    segments: run([0, 0], [0, -70], [50, -70], [54, -50, 54, -20, 50, 0], [0, 0]),
  },
  corners: [point(0, 0), point(0, -70), point(50, -70), point(50, 0)],
  notches: [],
  grain: line(point(25, -60), point(25, -10)),
  arrows: [],
  across: [],
  letters: [],
};

/** The bare panel with other strokes on it; its grainline is always there, and is no more than a stroke without arrows. */
const withStrokes = (...strokes: (readonly [number, number])[][]): ScanPanel => ({
  ...BARE,
  letters: strokes.map((stroke) => stroke.map(([x, y]) => point(x, y))),
});

const placed = ([x, y]: readonly [number, number]): Point => point(x + 14, y + 84);
const placedLine = (a: readonly [number, number], b: readonly [number, number]) => line(placed(a), placed(b));

const marksOf = async (panel: ScanPanel, more: Partial<ScanSpec> = {}): Promise<FoundOn> =>
  (await foundOn(scanOf(panel, { noise: 2, ...more })))[0]!;

describe('notches', () => {
  it('from inside, outside or both, aslant, double or with a bar are found', async () => {
    const { notches } = await marksOf(
      withStrokes(
        [
          [0, -60],
          [5, -60],
        ],
        [
          [-5, -50],
          [0, -50],
        ],
        [
          [-3, -43],
          [3, -37],
        ],
        [
          [-2, -30],
          [4, -30],
        ],
        [
          [-2, -26],
          [4, -26],
        ],
        [
          [0, -15],
          [4, -15],
        ],
        [
          [4, -17],
          [4, -13],
        ],
      ),
    );
    const truth = [
      placedLine([0, -60], [5, -60]),
      placedLine([0, -50], [5, -50]),
      placedLine([0, -40], [3, -37]),
      placedLine([0, -30], [4, -30]),
      placedLine([0, -26], [4, -26]),
      placedLine([0, -15], [4.175, -15]),
    ];
    expect(farthestApart(notches, truth)).toBeLessThan(WITHIN);
  });

  it('are not strokes that are too long, too slanting, bent, or that go on, nor sides drawn past their corner', async () => {
    const { notches, art } = await marksOf(
      withStrokes(
        [
          [-4, -60],
          [10, -60],
        ],
        [
          [-3, -52],
          [5, -36],
        ],
        [
          [0, -30],
          [3, -30],
          [6, -26],
          [6, -18],
        ],
        [
          [0, -12],
          [3, -12],
        ],
        [
          [5, -12],
          [8, -12],
        ],
        [
          [10, -12],
          [13, -12],
        ],
        [
          [46, 0],
          [53, 0],
        ],
        [
          [0, -66],
          [0, -73],
        ],
      ),
    );
    expect(notches).toEqual([]);
    expect(art.length).toBeGreaterThan(4);
  });
});

describe('a dashed line that begins on the outline', () => {
  it.each([
    ['outside', -1],
    ['inside', 1],
  ])('%s has no notch for its first dash', async (_, way) => {
    const dash = (from: number, to: number, bend: number): [number, number][] => [
      [way * from, -40 + bend * from],
      [way * to, -40 + bend * to],
    ];
    const dashes = [dash(0, 3, 0), dash(4.5, 7.5, 0.02), dash(9, 12, 0.04)];
    expect((await marksOf(withStrokes(...dashes))).notches).toEqual([]);
    expect((await marksOf(withStrokes(...dashes.slice(0, 2)))).notches).toHaveLength(1);
  });
});

const triangles = (isFilled: boolean, isOutside: boolean, size: number): ScanPanel => ({
  ...SIDE,
  notches: SIDE.notches.map(({ place }) => ({
    place,
    inside: size,
    outside: 0,
    triangle: { base: size, isFilled, isOutside },
  })),
});

describe('triangles on the outline', () => {
  it.each([
    ['filled, pointing in', true, false, 150, 4],
    ['filled, pointing out', true, true, 300, 3],
    ['open, pointing in', false, false, 300, 3],
    ['open, pointing out', false, true, 300, 4],
  ] as const)('%s, are notches to 0.1 mm', async (_, isFilled, isOutside, dpi, size) => {
    const { sheet, panels } = closeSheet();
    const panel = triangles(isFilled, isOutside, size);
    // At 300 dpi, a second size is dashed across them.
    const across = dpi === 300 ? { second: isOutside ? 2.5 : -2.5 } : {};
    const second = { ...panels[0]!, panel, ...across };
    expect(wrongOn(await foundOn({ kind: 'line', dpi, sheet, panels: [second], ...scanner, seed: 7 }), 'line')).toEqual(
      [],
    );
  });

  it('leave their outline as it is', async () => {
    const { sheet, panels } = closeSheet();
    const spec: ScanSpec = {
      kind: 'line',
      dpi: 150,
      sheet,
      panels: [{ ...panels[0]!, panel: triangles(true, true, 5) }],
      ...scanner,
    };
    const { picture, truth } = await makeScan(spec);
    const [rough] = findOutlines(picture, truth.pxPerMm, 'line').outlines;
    const { path } = traceOutline(picture, rough!, truth.pxPerMm)!;
    const off = flattenPath(transformPath(path, truth.toMm), 0.01).map(
      (p) => nearestPoint(truth.panels[0]!.outline, p).distance,
    );
    expect(Math.max(...off)).toBeLessThan(0.05);
  });
});

describe('lines across', () => {
  it('are found dashed and dotted, broken for a word, and crossed by the grain', async () => {
    const dashes: [number, number][][] = [];
    for (let x = 0.5; x + 4 < 53; x += 8) {
      dashes.push(
        [
          [x, -50],
          [x + 4, -50],
        ],
        [
          [x + 5.8, -50],
          [x + 6.3, -50],
        ],
      );
    }
    const panel = withStrokes(
      ...dashes,
      [
        [0, -30],
        [9, -30],
      ],
      [
        [14, -30],
        [53, -30],
      ],
    );
    const word = letterStrokes('W', point(10, -31.5), 3);
    const { across, notches } = await marksOf({ ...panel, letters: [...panel.letters, ...word] });
    expect(notches).toEqual([]);
    expect(across).toHaveLength(2);
    for (const [i, y] of [-50, -30].entries()) {
      const { start, end } = across[i]!;
      expect(start.x).toBeCloseTo(14, 1);
      expect(Math.abs(start.y - 84 - y)).toBeLessThan(WITHIN);
      expect(Math.abs(end.y - 84 - y)).toBeLessThan(WITHIN);
      expect(end.x).toBeGreaterThan(14 + 50);
    }
  });

  it('are not lines that end on the panel, bend, or run outwards alone', async () => {
    const arc = Array.from({ length: 27 }, (_, i): [number, number] => [
      2 * i,
      -50 - 2.5 * Math.sin((Math.PI * i) / 26),
    ]);
    const { across } = await marksOf(
      withStrokes(arc, [
        [0, -30],
        [35, -30],
      ]),
    );
    expect(across).toEqual([]);
  });
});

describe('grainlines', () => {
  it('are found at any angle, with filled heads too, and are one line across a waist line', async () => {
    for (const panel of [FRONT, BASQUE]) {
      const at = panel === FRONT ? { x: 20, y: 80 } : { x: 14, y: 30 };
      const sheet = panel === FRONT ? { width: 90, height: 150 } : { width: 120, height: 80 };
      const found = await foundOn({ kind: 'line', dpi: 300, sheet, panels: [{ panel, at }], ...scanner, seed: 4 });
      expect(wrongOn(found, 'line')).toEqual([]);
    }
    // A head filled by strokes side by side, that comes to a point at (25, -60).
    const fill = Array.from({ length: 13 }, (_, i): [number, number][] => [
      [25, -59.7],
      [24 + i / 6, -56],
    ]);
    const { grain } = await marksOf(withStrokes(...fill));
    expect(grain).toHaveLength(1);
    expect(farthestApart(grain, [placedLine([25, -60], [25, -10])])).toBeLessThan(0.6);
  });

  it('have an arrow: a bare line is art', async () => {
    const { grain, art } = await marksOf(BARE);
    expect(grain).toEqual([]);
    expect(art).toHaveLength(1);
    expect(farthestFromChains([placed([25, -59.5]), placed([25, -10.5])], art)).toBeLessThan(0.2);
  });
});

describe('other ink', () => {
  it('is drawn true to 0.2 mm with few points, and specks are left out', async () => {
    const curve = Array.from({ length: 41 }, (_, i): [number, number] => [
      35 + 8 * Math.cos(i / 8),
      -35 + 8 * Math.sin(i / 8),
    ]);
    const { art } = await marksOf(
      withStrokes(curve, [
        [10, -40],
        [10.4, -40],
      ]),
    );
    expect(art).toHaveLength(2);
    expect(farthestFromChains(curve.slice(1, -1).map(placed), art)).toBeLessThan(0.2);
    expect(Math.max(...art.map((a) => a.length))).toBeLessThan(40);
  });
});
