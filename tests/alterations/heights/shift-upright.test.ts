import { describe, expect, test } from 'vitest';
import { raiseBetween } from '../../../src/alterations/heights/raise-between.ts';
import { shiftUpright, type AmountUpright } from '../../../src/alterations/heights/shift-upright.ts';
import { stretchBetween } from '../../../src/alterations/heights/stretch-between.ts';
import { pathLength } from '../../../src/geometry/arc-length.ts';
import { tangentOn } from '../../../src/geometry/evaluate.ts';
import { crossHorizontal } from '../../../src/geometry/intersect.ts';
import { distance } from '../../../src/geometry/point.ts';
import { farthestApart, run } from '../../support/shaped-panels.ts';

const heights = Array.from({ length: 401 }, (_, i) => -150 + i * 0.75);

const raised = (amount: number, level = 0): AmountUpright =>
  raiseBetween({ above: -100, levels: [level], below: 80 }, -amount);

const stretched = (amount: number, high = -60, low = 40): AmountUpright =>
  stretchBetween({ high, centre: 0, low, still: 'centre' }, amount);

const moved = (amounts: AmountUpright, y: number): number => y + amounts.value(y);

describe.each([
  ['raised', raised(12.7), raised(-12.7, -12.7)],
  ['lowered far', raised(-70), raised(70, 70)],
  [
    'two levels raised',
    raiseBetween({ above: -100, levels: [-20, 30], below: 80 }, -40),
    raiseBetween({ above: -100, levels: [-60, -10], below: 80 }, 40),
  ],
  ['lengthened', stretched(25), stretched(-25, -75, 50)],
  ['shortened by more than half', stretched(-60), stretched(60, -24, 16)],
  [
    'above the waist',
    stretchBetween({ high: -60, centre: -40, low: -20, still: 'low' }, 10),
    stretchBetween({ high: -70, centre: -45, low: -20, still: 'low' }, -10),
  ],
] as const)('heights %s', (_, amounts, back) => {
  test('come back exactly under the opposite amount', () => {
    for (const y of heights) expect(moved(back, moved(amounts, y))).toBeCloseTo(y, 7);
  });

  test('keep their order, and the slope is that of the amounts', () => {
    const h = 1e-4;
    for (const [i, y] of heights.entries()) {
      expect(moved(amounts, y)).toBeGreaterThan(i > 0 ? moved(amounts, heights[i - 1]!) : -Infinity);
      expect(amounts.slope(y)).toBeCloseTo((amounts.value(y + h) - amounts.value(y - h)) / (2 * h), 4);
      expect(amounts.slope(y)).toBeGreaterThan(-1);
    }
  });
});

test('levels move by exactly the amount, everything between two of them too, and nothing farther', () => {
  const amounts = raiseBetween({ above: -100, levels: [-20, 30], below: 80 }, -12.7);
  for (const y of [-20, 0, 11.3, 30]) expect(amounts.value(y)).toBe(-12.7);
  for (const y of heights) {
    expect(amounts.value(y)).toBeLessThanOrEqual(0);
    expect(amounts.value(y)).toBeGreaterThanOrEqual(-12.7);
  }
  for (const y of [-300, -100, 80, 81]) expect(amounts.value(y)).toBe(0);
});

test('a change of length is shared by the two sides of the centre in proportion, and all beyond moves alike', () => {
  const amounts = stretched(25);
  expect([amounts.value(-60), amounts.value(0), amounts.value(40)]).toEqual([-15, 0, 10]);
  expect([amounts.value(-61), amounts.value(-1000), amounts.value(1000)]).toEqual([-15, -15, 10]);
});

test('with the centre free, one side stays exactly still', () => {
  const amounts = stretchBetween({ high: -60, centre: -40, low: -20, still: 'low' }, 10.1);
  expect([amounts.value(-20), amounts.value(50)]).toEqual([0, 0]);
  expect(amounts.value(-60)).toBeCloseTo(-10.1, 12);
});

test('two amounts after each other are the one amount of both', () => {
  const [first, second, both] = [stretched(25), stretched(10, -75, 50), stretched(35)];
  for (const y of heights) expect(moved(second, moved(first, y))).toBeCloseTo(moved(both, y), 9);
  const [up, again, whole] = [raised(8), raised(5, -8), raised(13)];
  for (const y of heights) expect(moved(again, moved(up, y))).toBeCloseTo(moved(whole, y), 9);
});

const speed = (w: number): number => (w * (1 - w * w)) / 2;

/** The same by small steps of the differential equation dw/dt = w (1 - w^2) / 2 over the time ln r (classic Runge-Kutta). */
test('the stretch follows the equation that it is the solution of', () => {
  const [half, amount] = [50, 30];
  const ratio = (2 * half + amount) / (2 * half);
  const amounts = stretchBetween({ high: -half, centre: 0, low: half, still: 'centre' }, amount);
  for (const start of [-0.9, -0.3, 0.1, 0.5, 0.99]) {
    const [steps, time] = [200, Math.log(ratio)];
    const h = time / steps;
    let w = start;
    for (let i = 0; i < steps; i += 1) {
      const a = speed(w);
      const b = speed(w + (h * a) / 2);
      const c = speed(w + (h * b) / 2);
      w += (h * (a + 2 * b + 2 * c + speed(w + h * c))) / 6;
    }
    expect(moved(amounts, start * half)).toBeCloseTo(w * half * ratio, 8);
  }
});

test('an upright line stays one straight line, longer by the amount', () => {
  const path = shiftUpright({ segments: run([5, -100], [5, 100]) }, stretched(25));
  expect(path.segments).toEqual(run([5, -115], [5, 110]));
  expect(pathLength(path)).toBe(225);
});

test('segments beyond what moves are the very same objects; an untouched path is the very same path', () => {
  const path = { segments: run([0, -200], [10, -150], [30, 0], [40, 90], [40, 200]) };
  const after = shiftUpright(path, raised(10));
  expect(after.segments[0]).toBe(path.segments[0]);
  expect(after.segments.at(-1)).toBe(path.segments.at(-1));
  const beside = { segments: run([0, -200], [10, -150]) };
  expect(shiftUpright(beside, raised(10))).toBe(beside);
});

test('a slanting line becomes the curve that the amounts say, smooth where it begins and ends to move', () => {
  const amounts = raised(12.7);
  const line = { segments: run([0, -150], [90, 150]) };
  const path = shiftUpright(line, amounts);
  for (const y of heights) {
    const x = (y + 150) * 0.3;
    expect(crossHorizontal(path, moved(amounts, y))[0]!.point.x).toBeCloseTo(x, 2);
  }
  for (const [i, segment] of path.segments.slice(1).entries()) {
    const [end, start] = [tangentOn(path.segments[i]!, 1), tangentOn(segment, 0)];
    expect(Math.hypot(end.dx - start.dx, end.dy - start.dy)).toBeLessThan(1e-6);
  }
  expect(path.segments.length).toBeLessThanOrEqual(7);
});

/** So many passes need more nodes than an edge may have, so the fit is eased a little. */
test('a curve that turns back and passes the same heights three times is moved as well', () => {
  const path = {
    segments: run([20, -120], [80, -60, 80, 40, 30, 30], [0, 24, -4, -20, -15, -20], [-30, -20, -40, 60, 10, 120]),
  };
  const after = shiftUpright(path, raised(12.7));
  expect(farthestApart(shiftUpright(after, raised(-12.7, -12.7)), path)).toBeLessThan(0.02);
});

test('a seam fitted anew has no handle so short that three decimals turn it', () => {
  const seam = run(
    [18.104, 132.956],
    [19.296, 122.504, 20.512, 112.052, 21.764, 101.6],
    [23.807, 84.559, 25.929, 67.627, 27.462, 50.8],
    [29.014, 33.757, 29.961, 16.825, 29.656, 0],
    [29.465, -10.585, 28.781, -21.164, 27.86, -31.749],
    [26.941, -42.335, 25.787, -52.915, 24.656, -63.5],
    [23.357, -75.672, 22.091, -87.84, 21.145, -100.013],
    [20.199, -112.184, 19.574, -124.352, 19.559, -136.524],
    [19.54, -152.82, 20.608, -168.941, 22.032, -184.693],
  );
  const { segments } = shiftUpright({ segments: seam }, raiseBetween({ above: -161, levels: [0], below: 123 }, -5));
  const handles = segments.flatMap((s) =>
    s.kind === 'line' ? [] : [distance(s.start, s.startHandle), distance(s.end, s.endHandle)],
  );
  // Rounding moves a handle's end by up to 0.0007 mm: 0.1 degrees at 0.4 mm.
  expect(Math.min(...handles)).toBeGreaterThan(0.4);
});
