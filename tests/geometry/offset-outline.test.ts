import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { StaywrightError } from '../../src/errors.ts';
import { signedArea } from '../../src/geometry/area.ts';
import { selfCrossings } from '../../src/geometry/intersect.ts';
import { offsetOutline } from '../../src/geometry/offset-outline.ts';
import { pathEnd, pathStart, type Path } from '../../src/geometry/path.ts';
import { samePoint } from '../../src/geometry/point.ts';
import { subSegment } from '../../src/geometry/split.ts';
import { VARIANTS } from '../support/variants.ts';
import { anyPanel, bustPanel, notched, ordinaryPanel, run, spike } from './offset-shapes.ts';
import { farthestApart, missesOf } from './offset-truth.ts';

const BOUND = 0.02;
const OUTWARD = [1, 2, 5, 10, 15, 20, 25, 30, 35, 40];

const wide = (paths: readonly Path[], ...widths: readonly number[]) =>
  paths.map((path, i) => ({ path, distance: widths[i % widths.length]! }));

const joined = (paths: readonly Path[]): Path => ({ segments: paths.flatMap((path) => path.segments) });

const cubics = (paths: readonly Path[]): number => joined(paths).segments.filter((s) => s.kind === 'cubic').length;

const corners = (paths: readonly Path[]): number[][] =>
  paths.flatMap((path) => path.segments.map(({ end }) => [end.x, end.y]));

const refusal = (make: () => unknown): StaywrightError => {
  try {
    make();
  } catch (error) {
    if (error instanceof StaywrightError) return error;
    throw error;
  }
  throw new Error('nothing was refused');
};

/** What is wrong with an offset whatever its width: open, not joined, crossing itself, run the other way round. */
const flawsOf = (before: readonly Path[], after: readonly Path[]): string[] => {
  const { segments } = joined(after);
  const gaps = segments.filter((segment, i) => !samePoint(segments.at(i - 1)!.end, segment.start)).length;
  const parted = after.filter((path, i) => !samePoint(pathEnd(after.at(i - 1)!), pathStart(path))).length;
  const crossings = selfCrossings({ segments }).length;
  const turned = signedArea({ segments }) * signedArea(joined(before)) <= 0;
  return [
    ...(gaps + parted > 0 ? [`${gaps + parted} gaps`] : []),
    ...(crossings > 0 ? [`${crossings} crossings`] : []),
    ...(turned ? ['turned inside out'] : []),
  ];
};

/** The flaws of an offset of one width, and its misses where they are over the bound. */
const faultsOf = (paths: readonly Path[], width: number, result: readonly Path[]): string[] => {
  const misses = missesOf(wide(paths, width), result);
  const over = Object.entries(misses).filter(([, miss]) => miss > BOUND);
  return [...flawsOf(paths, result), ...over.map(([name, miss]) => `${name} ${miss}`)];
};

describe('offset-outline', () => {
  const rectangle = [
    run([0, 0], [200, 0]),
    run([200, 0], [200, 300]),
    run([200, 300], [0, 300]),
    run([0, 300], [0, 0]),
  ];

  it('carries straight edges on to their mitres and trims them inward, exactly', () => {
    expect(corners(offsetOutline(wide(rectangle, 15)))).toEqual([
      [215, -15],
      [215, 315],
      [-15, 315],
      [-15, -15],
    ]);
    expect(corners(offsetOutline(wide(rectangle, -15)))).toEqual([
      [185, 15],
      [185, 285],
      [15, 285],
      [15, 15],
    ]);
  });

  it('gives each edge its own width, outward, inward or none', () => {
    expect(corners(offsetOutline(wide(rectangle, 6, 15, 0, -5)))).toEqual([
      [215, -6],
      [215, 300],
      [5, 300],
      [5, -6],
    ]);
  });

  it('drops the pieces of an edge of no width that its neighbours reach past', () => {
    const pieces = run([0, 300], [0, 285], [0, 15], [0, 0]);
    const result = offsetOutline(wide([...rectangle.slice(0, 3), pieces], -15, -15, -20, 0));
    expect(corners(result)).toEqual([
      [185, 15],
      [185, 280],
      [0, 280],
      [0, 15],
    ]);
  });

  it('leaves an outline of no width as it is', () => {
    const panel = ordinaryPanel();
    expect(offsetOutline(wide(panel, 0))).toEqual(panel);
    const [top] = offsetOutline(wide(panel, 0, 15, 15, 15));
    expect(top!.segments.some((s) => s.kind === 'cubic' && samePoint(s.startHandle, { x: 40, y: 10 }))).toBe(true);
  });

  it('steps from one width to another where edges meet without a corner', () => {
    const split = [run([0, 0], [100, 0]), run([100, 0], [200, 0]), run([200, 0], [200, 300], [0, 300], [0, 0])];
    const result = offsetOutline(wide(split, 15, 6, 10));
    expect(corners(result)).toEqual([
      [100, -15],
      [100, -6],
      [210, -6],
      [210, 310],
      [-10, 310],
      [-10, -15],
    ]);
  });

  it('trims the wider side where the narrower one is carried on past it', () => {
    // Interior angle 150 degrees: the parallels at 15 and 10 cross before the corner of the one, beyond that of the other.
    const slope = Math.tan(Math.PI / 6);
    const shape = [
      run([0, 0], [100, 0]),
      run([100, 0], [200, 100 * slope]),
      run([200, 100 * slope], [200, 300], [0, 300], [0, 0]),
    ];
    const [top, side] = offsetOutline(wide(shape, 15, 10, 15));
    const { x, y } = pathEnd(top!);
    expect(y).toBeCloseTo(-15, 9);
    // (x, y) lies 10 mm from the line of the slope, on its left.
    expect((x - 100) * Math.sin(Math.PI / 6) - y * Math.cos(Math.PI / 6)).toBeCloseTo(10, 9);
    expect(pathStart(side!)).toEqual(pathEnd(top!));
  });

  it('follows gentle seams with one cubic for each', () => {
    const panel = ordinaryPanel();
    for (const width of [1, 5, 10, 15, 25, -1, -5, -10, -15, -20]) {
      const result = offsetOutline(wide(panel, width));
      expect(faultsOf(panel, width, result)).toEqual([]);
      expect(cubics(result)).toBe(cubics(panel));
    }
    for (const width of [30, 40]) {
      const result = offsetOutline(wide(panel, width));
      expect(faultsOf(panel, width, result)).toEqual([]);
      expect(cubics(result)).toBeLessThanOrEqual(1.5 * cubics(panel));
    }
  });

  it.each(OUTWARD)('is true %d mm outward on a tight waist and bust', (width) => {
    expect(faultsOf(bustPanel(), width, offsetOutline(wide(bustPanel(), width)))).toEqual([]);
  });

  it.each([1, 2, 5, 10, 15, 20, 22])('is true %d mm inward on a tight waist and bust', (width) => {
    expect(faultsOf(bustPanel(), -width, offsetOutline(wide(bustPanel(), -width)))).toEqual([]);
  });

  it.each([23, 25, 30, 40])('refuses %d mm inward, more than the waist has', (width) => {
    const error = refusal(() => offsetOutline(wide(bustPanel(), -width)));
    expect([error.code, error.message]).toEqual(['impossible', 'the outline falls apart into several at this width']);
  });

  it.each([...OUTWARD, ...OUTWARD.map((width) => -width)])(
    'carries a spike of 20 degrees to its tip at %d mm',
    (width) => {
      const result = offsetOutline(wide(spike(), width));
      expect(faultsOf(spike(), width, result)).toEqual([]);
      const tip = pathStart(result[0]!);
      expect(tip.x).toBeCloseTo(0, 9);
      expect(tip.y).toBeCloseTo(-width / Math.sin(Math.PI / 18), 9);
    },
  );

  it.each([1, 2, 5, 10, 15])('trims a concave corner at its true crossing at %d mm', (width) => {
    const result = offsetOutline(wide(notched(), width));
    expect(flawsOf(notched(), result)).toEqual([]);
    // The sides of the notch are 15 across on 60 down; their parallels meet on its middle.
    const deepest = Math.max(...result[0]!.segments.filter((s) => Math.abs(s.end.x - 75) < 1e-6).map((s) => s.end.y));
    expect(deepest).toBeCloseTo(60 - width / Math.sin(Math.atan2(15, 60)), 6);
  });

  it.each([20, 25, 30, 40])('fills a notch that %d mm closes, and runs straight across it', (width) => {
    const result = offsetOutline(wide(notched(), width));
    expect(flawsOf(notched(), result)).toEqual([]);
    for (const segment of result[0]!.segments) expect(segment.end.y).toBeCloseTo(-width, 6);
  });

  it('mitres a concave corner inward', () => {
    const result = offsetOutline(wide(notched(), -10));
    expect(faultsOf(notched(), -10, result)).toEqual([]);
    const deepest = Math.max(...result[0]!.segments.map((s) => s.end.y));
    expect(deepest).toBeCloseTo(60 + 10 / Math.sin(Math.atan2(15, 60)), 9);
  });

  it('names the run of which nothing is left', () => {
    const bevelled = [run([0, 0], [190, 0]), run([190, 0], [200, 10]), run([200, 10], [200, 300], [0, 300], [0, 0])];
    const error = refusal(() => offsetOutline(wide(bevelled, -30)));
    expect([error.code, error.where, error.cause]).toEqual(['impossible', 'run 1', { run: 1 }]);
  });

  it('lets a segment inside a run vanish', () => {
    const bevelled = [run([0, 0], [190, 0], [200, 10], [200, 300]), run([200, 300], [0, 300], [0, 0])];
    expect(corners(offsetOutline(wide(bevelled, -30)))).toEqual([
      [170, 30],
      [170, 270],
      [30, 270],
      [30, 30],
    ]);
  });

  it.each([100, 101, 150, 1000])('refuses a rectangle 200 wide %d mm inward', (width) => {
    expect(refusal(() => offsetOutline(wide(rectangle, -width))).code).toBe('impossible');
  });

  it('refuses what is not an outline', () => {
    expect(refusal(() => offsetOutline(wide(rectangle.slice(1), 5))).code).toBe('input');
    expect(refusal(() => offsetOutline(wide(rectangle, Number.NaN))).code).toBe('usage');
    expect(refusal(() => offsetOutline(wide([run([5, 5], [5, 5])], 5))).code).toBe('impossible');
  });

  it('refuses a corner too sharp for any mitre', () => {
    const needle = [run([0, 0], [300, 2]), run([300, 2], [0, 4]), run([0, 4], [0, 0])];
    expect(refusal(() => offsetOutline(wide(needle, 5))).message).toContain('too sharp for a mitre');
  });

  it('offsets curves with handles of no length', () => {
    const shape = [
      run([0, 0], [0, 0, 100, -30, 100, 0], [100, 60, 80, 100, 80, 100]),
      run([80, 100], [0, 100], [0, 0]),
    ];
    for (const width of [1, 10, 25, -1, -5]) {
      expect(faultsOf(shape, width, offsetOutline(wide(shape, width)))).toEqual([]);
    }
  });

  it('offsets an outline of a single cubic that closes on itself', () => {
    const drop = [run([0, 0], [150, 120, -150, 120, 0, 0])];
    for (const width of [1, 10, 30, -1, -10]) {
      expect(faultsOf(drop, width, offsetOutline(wide(drop, width)))).toEqual([]);
    }
  });

  it('is the same however the shape is turned, mirrored, run or moved', () => {
    for (const panel of [ordinaryPanel(), bustPanel(), notched()]) {
      for (const width of [15, -12]) {
        const plain = offsetOutline(wide(panel, width));
        for (const variant of VARIANTS.filter(({ scale }) => scale === 1)) {
          const moved = panel.map(variant.path);
          if (variant.reversed) moved.reverse();
          const side = variant.mirrored === variant.reversed ? 1 : -1;
          const result = offsetOutline(wide(moved, side * width));
          const expected = plain.map(variant.path);
          if (variant.reversed) expected.reverse();
          for (const [i, path] of result.entries()) expect(farthestApart(path, expected[i]!)).toBeLessThan(BOUND);
        }
      }
    }
  });

  it('is true on panels of every sort, or refuses', () => {
    fc.assert(
      fc.property(anyPanel(1.5), fc.constantFrom(1, 5, 10, 15, 25, 40, -1, -5, -10, -15), (panel, width) => {
        fc.pre(selfCrossings(joined(panel)).length === 0);
        let result: readonly Path[];
        try {
          result = offsetOutline(wide(panel, width));
        } catch (error) {
          // A panel of this size has room for small widths wherever it does not pinch or spike.
          if (error instanceof StaywrightError && error.code === 'impossible') return;
          throw error;
        }
        expect(faultsOf(panel, width, result)).toEqual([]);
      }),
      { numRuns: 40 },
    );
  });

  it('comes back within 0.03 mm when a width is added and taken off', () => {
    fc.assert(
      fc.property(anyPanel(0.5), fc.constantFrom(3, 6, 10, 15, 15.875), fc.boolean(), (panel, width, rounded) => {
        fc.pre(selfCrossings(joined(panel)).length === 0);
        const added = offsetOutline(wide(panel, width));
        const written = rounded ? added.map(toThreeDecimals) : added;
        const back = offsetOutline(wide(written, -width));
        expect(flawsOf(panel, back)).toEqual([]);
        for (const [i, path] of back.entries()) expect(farthestApart(path, panel[i]!)).toBeLessThan(0.03);
      }),
      { numRuns: 40 },
    );
  });

  it('is the same on an outline of a hundred times the nodes', () => {
    const panel = ordinaryPanel();
    const fine = panel.map(({ segments }) => ({
      segments: segments.flatMap((s) => Array.from({ length: 100 }, (_, i) => subSegment(s, i / 100, (i + 1) / 100))),
    }));
    for (const width of [15, 40, -15]) {
      const result = offsetOutline(wide(fine, width));
      const plain = offsetOutline(wide(panel, width));
      expect(flawsOf(fine, result)).toEqual([]);
      for (const [i, path] of result.entries()) expect(farthestApart(path, plain[i]!)).toBeLessThan(BOUND);
      expect(cubics(result)).toBeLessThanOrEqual(cubics(fine));
    }
  });
});

const toThreeDecimals = (path: Path): Path =>
  JSON.parse(
    JSON.stringify(path, (_, value: unknown) => (typeof value === 'number' ? Math.round(value * 1000) / 1000 : value)),
  ) as Path;
