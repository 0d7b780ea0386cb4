import { describe, expect, it } from 'vitest';
import { nearestPoint } from '../../../src/geometry/nearest-point.ts';
import { flattenPath } from '../../../src/geometry/flatten.ts';
import { distance, point, type Point } from '../../../src/geometry/point.ts';
import { transformPath, transformPoint } from '../../../src/geometry/transform-path.ts';
import { bridgeCuts } from '../../../src/scan/marks/bridge-cuts.ts';
import { notchFromCut } from '../../../src/scan/marks/notch-from-cut.ts';
import { findOutlines } from '../../../src/scan/rough/find-outlines.ts';
import { closeSheet, smallSheet } from '../../support/scans/cases.ts';
import { makeScan } from '../../support/scans/make-scan.ts';
import { randomFrom } from '../../support/scans/random.ts';
import { ALL_PANELS, GUSSET } from '../../support/scans/scan-panels.ts';
import type { ScanSpec } from '../../support/scans/scan-spec.ts';

const PX = 6;

/** A polygon as the search for outlines leaves it: points every 0.2 mm, each up to 0.1 mm off, in pixels. */
const rough = (corners: readonly (readonly [number, number])[], off = 0.1, seed = 1) => {
  const random = randomFrom(seed);
  const points: Point[] = [];
  for (const [i, [x, y]] of corners.entries()) {
    const [u, v] = corners[(i + 1) % corners.length]!;
    const count = Math.max(1, Math.round(Math.hypot(u - x, v - y) / 0.2));
    for (let k = 0; k < count; k += 1) {
      const t = k / count;
      points.push(
        point(
          PX * (x + (u - x) * t + random.between(-off, off) * 0.7),
          PX * (y + (v - y) * t + random.between(-off, off) * 0.7),
        ),
      );
    }
  }
  // The steps of a polygon's noise are no steeper than those of a boundary followed between pixels.
  const smooth = points.map((p, i) => {
    const [a, b] = [points.at(i - 1)!, points[(i + 1) % points.length]!];
    return point((a.x + p.x + b.x) / 3, (a.y + p.y + b.y) / 3);
  });
  return { edge: 'lighter' as const, points: smooth };
};

/** A square of 60 mm, clockwise, with other places between the ends of its upper side. */
const square = (...top: (readonly [number, number])[]) => rough([[0, 0], ...top, [60, 0], [60, 60], [0, 60]]);

/** Where a place `along` an upper edge and `deep` under it is. */
type Edge = (along: number, deep: number) => readonly [number, number];
const slope: Edge = (along, deep) => {
  const [c, s] = [Math.cos(Math.PI / 10), Math.sin(Math.PI / 10)];
  return [along * c - deep * s, along * s + deep * c];
};
/** Part of a circle of 45 mm, with the piece within it or (hollow) without. */
const bent =
  (hollow: boolean): Edge =>
  (along, deep) => {
    const [angle, radius] = [(along - 30) / 45, hollow ? 45 + deep : 45 - deep];
    return [30 + radius * Math.sin(angle), hollow ? radius * Math.cos(angle) - 45 : 45 - radius * Math.cos(angle)];
  };
/** A piece of 60 mm with such an upper edge, broken by a cut. */
const cutInto = (edge: Edge, seed: number, ...cut: (readonly [number, number])[]) => {
  const bare = (from: number, to: number) =>
    Array.from({ length: 50 }, (_, i) => edge(from + ((to - from) * (i + 0.5)) / 50, 0));
  const [first, last] = [cut[0]![0], cut.at(-1)![0]];
  const places = [edge(0, 0), ...bare(0, first), ...cut.map((at) => edge(...at)), ...bare(last, 60), edge(60, 0)];
  return rough([...places, edge(60, 30), edge(0, 30)], 0.1, seed);
};
const EDGES = [
  ['a sloping edge', slope],
  ['a round edge', bent(false)],
  ['a hollow edge', bent(true)],
] as const;
/** Cuts with their tip at number `tip`. */
const UNEVEN_CUTS = [
  {
    name: 'uneven arms',
    tip: 1,
    cut: [
      [27.6, 0],
      [27.3, 4.7],
      [32.6, 0],
    ],
  },
  {
    name: 'arms uneven the other way',
    tip: 1,
    cut: [
      [27.4, 0],
      [32.7, 4.7],
      [32.4, 0],
    ],
  },
  {
    name: 'a barb over its mouth',
    tip: 1,
    cut: [
      [27.6, 0],
      [28.9, 4.7],
      [32.2, 0.5],
      [30.9, 0],
    ],
  },
  {
    name: 'a barb on its other side',
    tip: 2,
    cut: [
      [29.1, 0],
      [27.8, 0.5],
      [31.1, 4.7],
      [32.4, 0],
    ],
  },
  {
    name: 'a burr beside its tip',
    tip: 1,
    cut: [
      [27.6, 0],
      [28.9, 4.7],
      [29.75, 3.3],
      [30.3, 3.22],
      [32.6, 0],
    ],
  },
] satisfies { name: string; tip: number; cut: [number, number][] }[];

describe('V cuts', () => {
  it.each([
    ['2 mm deep and wide', [29, 0], [30, 2.2], [31, 0]],
    ['12 mm deep and 6 mm wide', [27, 0], [30, 12], [33, 0]],
    ['2.5 mm deep and 7 mm wide', [26.5, 0], [30, 2.5], [33.5, 0]],
    ['leaning', [28, 0], [31.5, 5], [32, 0]],
    ['3 mm from a corner', [3, 0], [4.5, 4], [6, 0]],
    ['left standing as a triangle', [28.5, 0], [30, -3.5], [31.5, 0]],
  ] as const)('%s are found and bridged', (_, from, tip, to) => {
    const { outline, cuts } = bridgeCuts(square(from, tip, to), PX);
    expect(cuts).toHaveLength(1);
    const apart = (p: Point, [x, y]: readonly [number, number]): number => distance(p, point(PX * x, PX * y)) / PX;
    expect(apart(cuts[0]!.tip, tip)).toBeLessThan(0.5);
    expect(apart(cuts[0]!.mouth[0], from)).toBeLessThan(0.5);
    expect(apart(cuts[0]!.mouth[1], to)).toBeLessThan(0.5);
    const bare = outline.points.filter((p) => p.y < 30 * PX && p.x > PX && p.x < 59 * PX);
    expect(Math.max(...bare.map((p) => Math.abs(p.y))) / PX).toBeLessThan(0.3);
  });

  describe.each(EDGES)('in %s', (_, edge) => {
    it.each(UNEVEN_CUTS)('with $name are found and bridged', ({ tip, cut }) => {
      const [x, y] = edge(...cut[tip]!);
      for (let seed = 1; seed <= 8; seed += 1) {
        const { outline, cuts } = bridgeCuts(cutInto(edge, seed, ...cut), PX);
        expect(cuts).toHaveLength(1);
        expect(distance(cuts[0]!.tip, point(PX * x, PX * y)) / PX).toBeLessThan(0.5);
        const whole = Array.from({ length: 6001 }, (_u, i) => edge(i / 100, 0)).map(([u, v]) => point(PX * u, PX * v));
        const over = outline.points.filter((p) => distance(p, point(PX * x, PX * y)) < 9 * PX);
        const off = over.map((p) => Math.min(...whole.map((q) => distance(p, q))));
        expect(Math.max(...off) / PX).toBeLessThan(0.35);
      }
    });

    it.each([
      {
        name: 'a step',
        corners: [
          [25, 0],
          [25, 4],
          [36, 4],
          [36, 0],
        ],
      },
      {
        name: 'a corner with one side on another line',
        corners: [
          [26, 0],
          [30, 4.7],
          [34, 3.5],
          [44, 0],
        ],
      },
      {
        name: 'a tongue',
        corners: [
          [24, 0],
          [26, 6],
          [31, 6],
          [33, 0],
        ],
      },
    ] satisfies { name: string; corners: [number, number][] }[])('are none in $name', ({ corners }) => {
      for (let seed = 1; seed <= 8; seed += 1) expect(bridgeCuts(cutInto(edge, seed, ...corners), PX).cuts).toEqual([]);
    });
  });

  it('may lie side by side', () => {
    const { cuts } = bridgeCuts(square([20, 0], [21, 4], [22, 0], [26, 0], [27, 4], [28, 0]), PX);
    expect(cuts).toHaveLength(2);
  });

  it.each([
    ['wiggles of a torn edge', square(...Array.from({ length: 20 }, (_, i) => [15 + 1.5 * i, i % 2] as const))],
    ['a wide corner inwards', square([20, 0], [30, 9], [40, 0])],
    ['a step', square([25, 0], [25, 4], [35, 4], [35, 0])],
    ['a corner with both sides on other lines', square([26, 0], [30, 4], [34, 4])],
    [
      'a round hollow',
      square(
        ...Array.from(
          { length: 25 },
          (_, i) => [30 - 5 * Math.cos((Math.PI * i) / 24), 5 * Math.sin((Math.PI * i) / 24)] as const,
        ),
      ),
    ],
  ])('are none in %s', (_, outline) => {
    expect(bridgeCuts(outline, PX).cuts).toEqual([]);
  });

  it('are none on panels without any', () => {
    for (const [i, panel] of ALL_PANELS.entries()) {
      const points = flattenPath(panel.outline, 0.01).slice(0, -1);
      const outline = rough(
        points.map(({ x, y }) => [x, y] as const),
        0.1,
        i + 1,
      );
      expect(bridgeCuts(outline, PX).outline).toBe(outline);
    }
  });
});

/** Small, so that it is quick at 600 dpi. */
const GUSSET_ALONE = { sheet: { width: 34, height: 70 }, panels: [{ panel: GUSSET, at: { x: 5, y: 6 } }] };

describe('notches from V cuts', () => {
  it.each([
    ['150', { kind: 'cutout', dpi: 150, ...smallSheet(), turn: 1.5, noise: 3, jpeg: 75, seed: 1 }],
    ['300', { kind: 'cutout', dpi: 300, ...closeSheet(), turn: -1, noise: 3, jpeg: 75, dust: 12, seed: 2 }],
    ['600', { kind: 'cutout', dpi: 600, ...GUSSET_ALONE, turn: -1, noise: 3, blur: 1, seed: 3 }],
  ] satisfies [string, ScanSpec][])('of a scan at %s dpi are all found, within 0.1 mm', async (_, spec) => {
    const { picture, truth } = await makeScan(spec);
    const { outlines } = findOutlines(picture, truth.pxPerMm, 'cutout');
    for (const panel of truth.panels) {
      const path = transformPath(panel.outline, truth.toPicture);
      const own = outlines.find((o) => o.edge !== 'ink' && nearestPoint(path, o.points[0]!).distance < truth.pxPerMm)!;
      const { outline, cuts } = bridgeCuts(own, truth.pxPerMm);
      expect(cuts).toHaveLength(panel.notches.length);
      const off = Math.max(...outline.points.map((p) => nearestPoint(path, p).distance)) / truth.pxPerMm;
      expect(off).toBeLessThan(0.3);
      for (const cut of cuts) {
        const notch = notchFromCut(picture, path, cut, own.edge, truth.pxPerMm)!;
        const [start, end] = [transformPoint(notch.start, truth.toMm), transformPoint(notch.end, truth.toMm)];
        const apart = panel.notches.map((n) => Math.max(distance(n.start, start), distance(n.end, end)));
        expect(Math.min(...apart)).toBeLessThan(0.1);
      }
    }
  });
});
