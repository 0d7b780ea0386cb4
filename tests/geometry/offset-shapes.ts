/** Outlines for offset tests, clockwise on paper, as runs end to end. */

import * as fc from 'fast-check';
import type { Path } from '../../src/geometry/path.ts';
import { point, type Point } from '../../src/geometry/point.ts';
import { cubic, line, type Segment } from '../../src/geometry/segment.ts';

type Pair = readonly [number, number];

/** A run from steps: two numbers a line, six a cubic. */
export const run = (start: Pair, ...steps: readonly (readonly number[])[]): Path => {
  let from: Point = point(...start);
  const segments = steps.map((n): Segment => {
    const to = point(n.at(-2)!, n.at(-1)!);
    const segment = n.length === 2 ? line(from, to) : cubic(from, point(n[0]!, n[1]!), point(n[2]!, n[3]!), to);
    from = to;
    return segment;
  });
  return { segments };
};

/** Top, seam to the back, bottom, seam to the front: gentle curves, two cubics to a seam. */
export const ordinaryPanel = (): Path[] => [
  run([0, 0], [40, 10, 80, -10, 110, -8]),
  run([110, -8], [112, 60, 85, 110, 78, 170], [73, 213, 95, 270, 100, 330]),
  run([100, 330], [70, 336, 30, 330, 5, 320]),
  run([5, 320], [8, 270, 33, 215, 33, 165], [33, 110, -5, 60, 0, 0]),
];

/** 45 mm wide at the waist, with a bust curve of 40 mm radius above it on the back edge. */
export const bustPanel = (): Path[] => [
  run([10, 0], [85, 0]),
  run(
    [85, 0],
    [85, 30, 92, 30, 105, 40],
    [118.8, 50, 127, 62, 127, 77],
    [127, 99.1, 109.1, 117, 92, 124],
    [75, 131, 65, 150, 65, 180],
    [65, 220, 88, 260, 92, 320],
  ),
  run([92, 320], [0, 320]),
  run([0, 320], [4, 260, 20, 220, 20, 180], [20, 120, 10, 60, 10, 0]),
];

/** A triangle whose top has an angle of 20 degrees. */
export const spike = (height = 400): Path[] => {
  const half = height * Math.tan(Math.PI / 18);
  return [run([0, 0], [half, height]), run([half, height], [-half, height]), run([-half, height], [0, 0])];
};

/** A gusset-like notch: two edges meet at a corner that points into the panel. */
export const notched = (): Path[] => [
  run([0, 0], [60, 0], [75, 60], [90, 0], [150, 0]),
  run([150, 0], [150, 200]),
  run([150, 200], [0, 200]),
  run([0, 200], [0, 0]),
];

const wobble = (size: number): fc.Arbitrary<number> =>
  fc.integer({ min: -1000, max: 1000 }).map((n) => (n * size) / 1000);

/** Panels of all sorts of curves; `wild` stretches their handles. */
export const anyPanel = (wild: number): fc.Arbitrary<Path[]> =>
  fc.array(wobble(1), { minLength: 26, maxLength: 26 }).map((n) => {
    let used = 0;
    const by = (size: number): number => n[used++]! * size;
    const near = (x: number, y: number, size: number): Pair => [x + by(size), y + by(size)];
    const [a, b, c, d] = [near(0, 0, 15), near(100, 0, 15), near(100, 330, 15), near(0, 330, 15)];
    const [right, left] = [near(78, 165, 10), near(30, 165, 10)];
    const [leanRight, leanLeft] = [by(6 * wild), by(6 * wild)];
    const k = 40 * wild;
    return [
      run(a, [a[0] + 35, a[1] + by(k), b[0] - 35, b[1] + by(k), ...b]),
      run(
        b,
        [b[0] + by(k), b[1] + 55, right[0] - leanRight, right[1] - 50, ...right],
        [right[0] + leanRight, right[1] + 45 + by(10), c[0] + by(k), c[1] - 50, ...c],
      ),
      run(c, [c[0] - 30, c[1] + by(k), d[0] + 30, d[1] + by(k), ...d]),
      run(
        d,
        [d[0] + by(k), d[1] - 50, left[0] - leanLeft, left[1] + 50, ...left],
        [left[0] + leanLeft, left[1] - 50, a[0] + by(k), a[1] + 55, ...a],
      ),
    ];
  });
