/**
 * The figures of an isosceles gusset with base b and sides L: apex 2 asin(b / 2L), height sqrt(L² - b²/4); of one whose HEIGHT is given:
 * apex 2 atan(b / 2h). Worked out here from geometry. The patch that reinforces the point, 1 1/2 x 3 in, was read in a handout for a
 * sewing conference by S. Cowan; so was that the allowance is full on the gusset and tapers to nothing on the slit.
 */
import { expect, test } from 'vitest';
import { gussetShape } from '../../src/alterations/gusset/gusset-shape.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { pathEnd } from '../../src/geometry/path.ts';
import { distance, point } from '../../src/geometry/point.ts';

const degrees = (radians: number): number => (radians * 180) / Math.PI;

test.each([
  { base: 60, side: 120, apex: 28.955024, height: 116.1895 },
  { base: 50, side: 150, apex: 19.188136, height: 147.901995 },
])('a gusset of base $base and sides $side', ({ base, side, apex, height }) => {
  const shape = gussetShape({ front: side, back: side, width: base, sides: 'straight' })!;
  expect(degrees(shape.apexAngle)).toBeCloseTo(apex, 6);
  expect(pathEnd(shape.back).y).toBeCloseTo(height, 6);
  expect(distance(pathEnd(shape.back), pathEnd(shape.bottom))).toBeCloseTo(base, 9);
});

test('a base of 50 under a HEIGHT of 150 opens by another angle than one under sides of 150', () => {
  const side = Math.hypot(150, 25);
  const shape = gussetShape({ front: side, back: side, width: 50, sides: 'straight' })!;
  expect(degrees(shape.apexAngle)).toBeCloseTo(18.924644, 6);
  expect(pathEnd(shape.back).y).toBeCloseTo(150, 9);
});

test('the base of equal sides is an arc about the apex, so that the hem is even', () => {
  const { bottom } = gussetShape({ front: 120, back: 120, width: 60, sides: 'straight' })!;
  for (let i = 0; i <= 20; i += 1) {
    expect(distance(point(0, 0), pointOn(bottom.segments[0]!, i / 20))).toBeCloseTo(120, 3);
  }
});

test('the arc of a curved side: radius r and turn t from its bow of a thirtieth of the chord', () => {
  // Bow s and chord c of an arc: s = r (1 - cos(t/2)), c = 2 r sin(t/2); with s = c/30, t = 4 atan(1/15) and its length is r t.
  const turn = 4 * Math.atan(1 / 15);
  const radius = 120 / turn;
  const chord = 2 * radius * Math.sin(turn / 2);
  const { back, front } = gussetShape({ front: 120, back: 120, width: 60, sides: 'curved' })!;
  for (const side of [back, front]) expect(pathLength(side)).toBeCloseTo(120, 4);
  const end = pathEnd(back);
  expect(distance(point(0, 0), end)).toBeCloseTo(chord, 6);
  const middle = pointOn(back.segments[0]!, 0.5);
  expect(distance(middle, point(end.x / 2, end.y / 2))).toBeCloseTo(chord / 30, 6);
});
