import { describe, expect, it } from 'vitest';
import { compose, rotation, scaling, translation, type Matrix } from '../../../src/geometry/matrix.ts';
import { distance, type Point } from '../../../src/geometry/point.ts';
import { transformPoint } from '../../../src/geometry/transform-path.ts';
import { findSquares } from '../../../src/scan/scale/find-squares.ts';
import { chance } from './draw-square.ts';
import { roughOutline } from './rough-square.ts';

const SQUARE = [
  [-25, -25],
  [25, -25],
  [25, 25],
  [-25, 25],
] as const;

const degrees = Math.PI / 180;

/** A square of 50 mm at 300 dpi, seen by a scanner that is off by some per cent and sheared. */
const scanned = (turn: number, x = 1, y = 1, shear = 0): Matrix =>
  compose(
    translation(900, 800),
    compose({ a: 11.81 * x, b: 0, c: 11.81 * x * Math.tan(shear), d: 11.81 * y, e: 0, f: 0 }, rotation(turn)),
  );

describe('squares among rough outlines', () => {
  it.each([0, 7, 30, 45, 61, 89.5])('are found turned by %f degrees, stretched, sheared and roughly drawn', (turn) => {
    const seen = scanned(turn * degrees, 1.02, 0.99, 1.5 * degrees);
    const [found, ...more] = findSquares([roughOutline(SQUARE, seen, chance(7))]);
    expect(more).toEqual([]);
    expect(found).toMatchObject({ outline: 0, edge: 'ink' });
    expect(Math.abs(found!.side / (50 * 11.81) - 1)).toBeLessThan(0.02);
    const corners = SQUARE.map(([x, y]) => transformPoint({ x, y }, seen));
    // Each true corner is one of those found, within the half millimetre that measuring needs.
    corners.forEach((p) => expect(Math.min(...found!.corners.map((q) => distance(p, q)))).toBeLessThan(0.5 * 11.81));
    const area = found!.corners.reduce(
      (sum, p, i) => sum + p.x * found!.corners[(i + 1) % 4]!.y - found!.corners[(i + 1) % 4]!.x * p.y,
      0,
    );
    expect(area).toBeGreaterThan(0);
  });

  it('are found whichever way and from wherever the outline runs, and with corners alone', () => {
    const { points } = roughOutline(SQUARE, scanned(0.2), chance(1));
    const few = SQUARE.map(([x, y]) => transformPoint({ x, y }, scanned(0.2)));
    for (const each of [points.toReversed(), [...points.slice(50), ...points.slice(0, 50)], few]) {
      const [found] = findSquares([{ edge: 'ink', points: each }]);
      expect(Math.abs(found!.side / (50 * 11.81) - 1)).toBeLessThan(0.01);
    }
  });

  it('are found worn: a bulge of 1 mm over an eighth of one side', () => {
    const bulged: [number, number][] = [
      [-25, -25],
      [-8, -25],
      [-6, -26],
      [-4, -26],
      [-2, -25],
      [25, -25],
      [25, 25],
      [-25, 25],
    ];
    const [found] = findSquares([roughOutline(bulged, scanned(0.05), chance(2))]);
    expect(Math.abs(found!.side / (50 * 11.81) - 1)).toBeLessThan(0.005);
  });

  it.each<[string, Point[] | readonly (readonly [number, number])[]]>([
    [
      'an oblong',
      [
        [-25, -22],
        [25, -22],
        [25, 22],
        [-25, 22],
      ],
    ],
    [
      'a lozenge',
      [
        [-25, -25],
        [20, -25],
        [25, 25],
        [-20, 25],
      ],
    ],
    [
      'a tapering panel',
      [
        [-25, -25],
        [25, -25],
        [21, 25],
        [-21, 25],
      ],
    ],
    [
      'a square without a corner',
      [
        [-25, -25],
        [17, -25],
        [25, -17],
        [25, 25],
        [-25, 25],
      ],
    ],
    [
      'a triangle',
      [
        [-25, 25],
        [0, -25],
        [25, 25],
      ],
    ],
    ['a circle', Array.from({ length: 60 }, (_, k) => [25 * Math.cos(k / 9.55), 25 * Math.sin(k / 9.55)] as const)],
    [
      'a square with a hollow side',
      Array.from({ length: 51 }, (_, k) => [k - 25, -25 + 3 * Math.sin((k * Math.PI) / 50)] as const).concat([
        [25, 25],
        [-25, 25],
      ]),
    ],
    [
      'an octagon',
      Array.from({ length: 8 }, (_, k) => [25 * Math.cos(k * 0.7854), 25 * Math.sin(k * 0.7854)] as const),
    ],
    [
      'a line',
      [
        [-25, 0],
        [25, 0],
      ],
    ],
    [
      'a line there and back',
      [
        [-25, 0],
        [0, 0],
        [25, 0],
        [0, 0],
      ],
    ],
    [
      'a point',
      [
        [0, 0],
        [0, 0],
        [0, 0],
        [0, 0],
      ],
    ],
    ['nothing', []],
  ])('are not %s', (_, shape) => {
    const points = (shape as readonly (readonly [number, number])[]).map(([x, y]) =>
      transformPoint({ x, y }, scanned(0.1)),
    );
    expect(findSquares([{ edge: 'ink', points }])).toEqual([]);
  });

  it('may have any size', () => {
    const outlines = [0.2, 0.5, 2, 10].map((size) =>
      roughOutline(SQUARE, compose(scanned(0.3), scaling(size)), undefined),
    );
    expect(findSquares(outlines).map(({ outline }) => outline)).toEqual([0, 1, 2, 3]);
  });
});
