import { describe, expect, it } from 'vitest';
import { StaywrightError } from '../../src/errors.ts';
import { offsetDeviation } from '../../src/geometry/offset-check.ts';
import { offsetPath } from '../../src/geometry/offset-path.ts';
import { offsetSource } from '../../src/geometry/offset-source.ts';
import { pathEnd, pathStart } from '../../src/geometry/path.ts';
import { cubic } from '../../src/geometry/segment.ts';
import { run } from './offset-shapes.ts';
import { circle } from '../support/shapes.ts';

const ends = (path: ReturnType<typeof run>) => path.segments.map(({ end }) => [end.x, end.y]);

describe('offset-path', () => {
  it('moves a line to the left of its direction', () => {
    const moved = offsetPath(run([0, 0], [100, 0]), 15);
    expect([pathStart(moved), pathEnd(moved)]).toEqual([
      { x: 0, y: -15 },
      { x: 100, y: -15 },
    ]);
  });

  it('mitres and trims the corners of an open path and squares its ends', () => {
    const zigzag = run([0, 0], [100, 0], [100, 100], [200, 100]);
    const moved = offsetPath(zigzag, 10);
    expect(pathStart(moved)).toEqual({ x: 0, y: -10 });
    expect(ends(moved)).toEqual([
      [110, -10],
      [110, 90],
      [200, 90],
    ]);
  });

  it('drops a step that its width swallows', () => {
    const step = run([0, 0], [100, 0], [100, 5], [200, 5]);
    expect(ends(offsetPath(step, -20))).toEqual([
      [80, 20],
      [80, 25],
      [200, 25],
    ]);
    const ledge = run([0, 0], [100, 0], [100, -40], [110, -40], [110, 0], [200, 0]);
    for (const [, y] of ends(offsetPath(ledge, -20))) expect(y).toBeCloseTo(20, 9);
  });

  it('takes a closed path for an outline', () => {
    const ring = offsetPath(circle(50), 10);
    expect(pathStart(ring)).toEqual(pathEnd(ring));
  });

  it('refuses a path of which no single line would be left', () => {
    const hairpin = run([0, 0], [100, 0, 100, 10, 0, 10]);
    expect(() => offsetPath(hairpin, -20)).toThrow(StaywrightError);
  });

  it('refuses a path that is one point', () => {
    expect(() => offsetPath(run([3, 4], [3, 4]), 5)).toThrow(StaywrightError);
  });
});

describe('offset-check', () => {
  const source = offsetSource(cubic({ x: 0, y: 0 }, { x: 30, y: 5 }, { x: 70, y: 25 }, { x: 100, y: 60 }), 0, 10)!;
  const [good] = offsetPath({ segments: [source.segment] }, 10).segments;

  it('finds a fit within tolerance, and sees a handle moved by a millimetre', () => {
    const fitted = good!.kind === 'cubic' ? good! : undefined;
    expect(offsetDeviation(source, fitted!, 0, 1)).toBeLessThan(0.01);
    const bent = { ...fitted!, startHandle: { x: fitted!.startHandle.x, y: fitted!.startHandle.y + 1 } };
    expect(offsetDeviation(source, bent, 0, 1)).toBeGreaterThan(0.1);
  });

  it('does not take the wrong side, or a curve that runs the other way, for the parallel', () => {
    const fitted = good!.kind === 'cubic' ? good! : undefined;
    const { start, startHandle, endHandle, end } = fitted!;
    expect(offsetDeviation(source, cubic(end, endHandle, startHandle, start), 0, 1)).toBe(Number.POSITIVE_INFINITY);
    expect(offsetDeviation({ ...source, distance: -10 }, fitted!, 0, 1)).toBeGreaterThan(19);
  });
});
