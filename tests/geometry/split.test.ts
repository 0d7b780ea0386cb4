import { Bezier } from 'bezier-js';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { distance, point } from '../../src/geometry/point.ts';
import { line } from '../../src/geometry/segment.ts';
import { splitSegment, subSegment } from '../../src/geometry/split.ts';
import { anyCubic, anyParameter } from '../support/arbitrary-curves.ts';

describe('a split segment', () => {
  it('agrees with another library on any cubic', () => {
    fc.assert(
      fc.property(anyCubic, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (s, t) => {
        const { left } = new Bezier([s.start, s.startHandle, s.endHandle, s.end]).split(t);
        const [head] = splitSegment(s, t);
        if (head.kind !== 'cubic') throw new Error('a cubic splits into cubics');
        for (const [i, p] of [head.start, head.startHandle, head.endHandle, head.end].entries()) {
          expect(distance(p, point(left.points[i]!.x, left.points[i]!.y))).toBeLessThan(1e-10);
        }
      }),
    );
  });

  it('keeps its ends exactly, and its parts share their cut', () => {
    fc.assert(
      fc.property(anyCubic, anyParameter, (s, t) => {
        const [head, tail] = splitSegment(s, t);
        expect(head.start).toEqual(s.start);
        expect(tail.end).toEqual(s.end);
        expect(head.end).toEqual(tail.start);
        expect(distance(head.end, pointOn(s, t))).toBeLessThan(1e-10);
      }),
    );
  });
});

describe('a part of a segment', () => {
  it('runs over the same points', () => {
    fc.assert(
      fc.property(anyCubic, anyParameter, anyParameter, anyParameter, (s, t, u, v) => {
        const [t0, t1] = [Math.min(t, u), Math.max(t, u)];
        expect(distance(pointOn(subSegment(s, t0, t1), v), pointOn(s, t0 + (t1 - t0) * v))).toBeLessThan(1e-9);
      }),
    );
  });

  it('is the segment itself from 0 to 1, and of a line a line', () => {
    const s = line(point(0, 0), point(8, 4));
    expect(subSegment(s, 0, 1)).toBe(s);
    expect(subSegment(s, 0.25, 0.75)).toEqual(line(point(2, 1), point(6, 3)));
  });
});
