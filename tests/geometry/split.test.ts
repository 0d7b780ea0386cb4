import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { between, distance, point } from '../../src/geometry/point.ts';
import { line } from '../../src/geometry/segment.ts';
import { halveCubic, splitSegment, subSegment } from '../../src/geometry/split.ts';
import { anyCubic, anyParameter } from '../support/arbitrary-curves.ts';

describe('a split segment', () => {
  it('has the handles of de Casteljau’s construction', () => {
    fc.assert(
      fc.property(anyCubic, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (s, t) => {
        const middle = between(s.startHandle, s.endHandle, t);
        const first = between(s.start, s.startHandle, t);
        const last = between(s.endHandle, s.end, t);
        const expected = [
          s.start,
          first,
          between(first, middle, t),
          pointOn(s, t),
          between(middle, last, t),
          last,
          s.end,
        ];
        const [head, tail] = splitSegment(s, t);
        if (head.kind !== 'cubic' || tail.kind !== 'cubic') throw new Error('a cubic splits into cubics');
        const found = [
          head.start,
          head.startHandle,
          head.endHandle,
          head.end,
          tail.startHandle,
          tail.endHandle,
          tail.end,
        ];
        for (const [i, p] of found.entries()) expect(distance(p, expected[i]!)).toBeLessThan(1e-10);
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

describe('halves for a search', () => {
  it('are those of a cut at the middle, to the last digits', () => {
    fc.assert(
      fc.property(anyCubic, anyParameter, (s, v) => {
        const [head, tail] = halveCubic(s);
        expect([head.start, head.end, tail.end]).toEqual([s.start, tail.start, s.end]);
        expect(distance(pointOn(head, v), pointOn(s, v / 2))).toBeLessThan(1e-10);
        expect(distance(pointOn(tail, v), pointOn(s, (1 + v) / 2))).toBeLessThan(1e-10);
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
