import { describe, expect, it } from 'vitest';
import { joinPaths } from '../../src/geometry/join-paths.ts';
import { pathEnd } from '../../src/geometry/path.ts';
import { reversePath } from '../../src/geometry/reverse-path.ts';
import { circle, polyline } from '../support/shapes.ts';

describe('joined paths', () => {
  it('follow each other', () => {
    const joined = joinPaths(polyline([0, 0], [5, 0]), polyline([5, 0], [5, 5]), polyline([5, 5], [9, 9], [8, 8]));
    expect(joined.segments).toHaveLength(4);
    expect(pathEnd(joined)).toEqual({ x: 8, y: 8 });
  });

  it('are made exactly continuous where they all but meet', () => {
    const joined = joinPaths(polyline([0, 0], [5, 0]), polyline([5.0004, 0], [5, 5]));
    expect(joined.segments[1]!.start).toEqual({ x: 5, y: 0 });
  });

  it('are refused where they leave a hole', () => {
    expect(() => joinPaths(polyline([0, 0], [5, 0]), polyline([5.001, 0], [5, 5]))).toThrow('do not meet');
  });
});

describe('a reversed path', () => {
  it('is the same again when reversed twice', () => {
    const path = circle(70);
    expect(reversePath(reversePath(path))).toEqual(path);
    expect(reversePath(path).segments[0]!.start).toEqual(pathEnd(path));
  });
});
