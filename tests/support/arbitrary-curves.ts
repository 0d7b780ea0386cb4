import * as fc from 'fast-check';
import { point, type Point } from '../../src/geometry/point.ts';
import { cubic, type Cubic } from '../../src/geometry/segment.ts';

const coordinate = fc.integer({ min: -100_000, max: 100_000 }).map((n) => n / 500);

/** Points of a drawing in a square of 400 mm. */
export const anyPoint: fc.Arbitrary<Point> = fc.tuple(coordinate, coordinate).map(([x, y]) => point(x, y));

/** Any cubic at all: loops, cusps, handles of no length. */
export const anyCubic: fc.Arbitrary<Cubic> = fc
  .tuple(anyPoint, anyPoint, anyPoint, anyPoint, fc.constantFrom('free', 'start', 'end', 'both', 'closed'))
  .map(([a, b, c, d, kind]) =>
    cubic(
      a,
      kind === 'start' || kind === 'both' ? a : b,
      kind === 'end' || kind === 'both' ? d : c,
      kind === 'closed' ? a : d,
    ),
  );

/** A parameter in [0, 1], its ends included. */
export const anyParameter: fc.Arbitrary<number> = fc.oneof(
  fc.constantFrom(0, 1, 0.5),
  fc.double({ min: 0, max: 1, noNaN: true }),
);
