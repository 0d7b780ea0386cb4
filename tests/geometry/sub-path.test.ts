import { describe, expect, it } from 'vitest';
import { pathEnd, pathStart } from '../../src/geometry/path.ts';
import { subPath } from '../../src/geometry/sub-path.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { polygon, polyline } from '../support/shapes.ts';

const zigzag = polyline([0, 0], [10, 0], [10, 10], [20, 10]);
const square = polygon([0, 0], [10, 0], [10, 10], [0, 10]);

describe('a part of a path', () => {
  it('keeps whole segments as they are', () => {
    const part = subPath(zigzag, { segment: 0, t: 0.5 }, { segment: 2, t: 0.5 });
    expect(part.segments).toHaveLength(3);
    expect(part.segments[1]).toBe(zigzag.segments[1]);
    expect(pathStart(part)).toEqual({ x: 5, y: 0 });
    expect(pathEnd(part)).toEqual({ x: 15, y: 10 });
  });

  it('has no segment of no length at a joint', () => {
    const part = subPath(zigzag, { segment: 0, t: 1 }, { segment: 2, t: 0 });
    expect(part.segments).toEqual([zigzag.segments[1]]);
  });

  it('is one point from a place to itself, under either name of a joint', () => {
    const here = { segment: 1, t: 0.25 };
    expect(pathLength(subPath(zigzag, here, here))).toBe(0);
    expect(pathStart(subPath(zigzag, here, here))).toEqual({ x: 10, y: 2.5 });
    const joint = subPath(zigzag, { segment: 0, t: 1 }, { segment: 1, t: 0 });
    expect(joint.segments).toHaveLength(1);
    expect(pathStart(joint)).toEqual({ x: 10, y: 0 });
  });

  it('runs through the joint of a closed path', () => {
    const part = subPath(square, { segment: 3, t: 0.5 }, { segment: 0, t: 0.5 });
    expect(pathLength(part)).toBe(10);
    expect(pathStart(part)).toEqual({ x: 0, y: 5 });
    expect(pathEnd(part)).toEqual({ x: 5, y: 0 });
    expect(pathLength(subPath(square, { segment: 0, t: 0.75 }, { segment: 0, t: 0.25 }))).toBe(35);
  });

  it('cannot run backwards on an open path', () => {
    expect(() => subPath(zigzag, { segment: 2, t: 0 }, { segment: 0, t: 0.5 })).toThrow('backwards');
  });
});
