import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { growCubic } from '../../src/geometry/grow-cubic.ts';
import { distance } from '../../src/geometry/point.ts';
import { splitSegment } from '../../src/geometry/split.ts';
import { anyCubic } from '../support/arbitrary-curves.ts';

test('a cubic that was cut off grows back as it was', () => {
  fc.assert(
    fc.property(anyCubic, fc.double({ min: 0.5, max: 0.99, noNaN: true }), (s, t) => {
      const [head] = splitSegment(s, t);
      if (head.kind !== 'cubic') throw new Error('a cubic splits into cubics');
      const grown = growCubic(head, 1 / t);
      expect(distance(grown.startHandle, s.startHandle)).toBeLessThan(1e-6);
      expect(distance(grown.endHandle, s.endHandle)).toBeLessThan(1e-6);
      expect(distance(grown.end, s.end)).toBeLessThan(1e-6);
    }),
  );
});
