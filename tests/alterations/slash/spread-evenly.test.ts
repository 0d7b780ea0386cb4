import { describe, expect, test } from 'vitest';
import { spreadEvenly } from '../../../src/alterations/slash/spread-evenly.ts';
import { derivativeOn, pointOn, tangentOn } from '../../../src/geometry/evaluate.ts';
import { IDENTITY, rotation, compose, translation, type Matrix } from '../../../src/geometry/matrix.ts';
import { pathEnd, type Path } from '../../../src/geometry/path.ts';
import { cubic, line } from '../../../src/geometry/segment.ts';
import { distance, point } from '../../../src/geometry/point.ts';
import { transformPoint } from '../../../src/geometry/transform-path.ts';
import { turn } from '../../../src/geometry/vector.ts';

const about = (x: number, y: number, angle: number): Matrix =>
  compose(translation(x, y), compose(rotation(angle), translation(-x, -y)));

/** The parts of a straight edge of this many millimetres at y = -200, slashed down to y = 0: each turned about the foot of its slash. */
const openings = (width: number, lines: number, spread: number): Matrix[] => {
  const angle = 2 * Math.asin(spread / 400);
  const motions: Matrix[] = [IDENTITY];
  for (let i = 1; i <= lines; i += 1)
    motions.push(compose(motions.at(-1)!, about((width * i) / (lines + 1), 0, angle)));
  return motions;
};

const cutsOf = (width: number, lines: number): number[] =>
  Array.from({ length: lines }, (_, i) => (width * (i + 1)) / (lines + 1));

const degrees = (radians: number): number => (radians * 180) / Math.PI;

/** How the line bends, in degrees, from each place to the next: places every twentieth of a segment, and both sides of each node. */
const bends = ({ segments }: Path): { readonly by: number; readonly along: number }[] => {
  const places = segments.flatMap((s) =>
    Array.from({ length: 21 }, (_, i) => ({ tangent: tangentOn(s, i / 20), at: pointOn(s, i / 20) })),
  );
  return places.slice(1).map(({ tangent, at }, i) => ({
    by: degrees(turn(places[i]!.tangent, tangent)),
    along: distance(places[i]!.at, at),
  }));
};

const straight = (width: number): Path => ({ segments: [line(point(0, -200), point(width, -200))] });

describe('an edge whose slashes lie close together', () => {
  test.each([
    [3, 5],
    [7, 2],
    [20, 1],
    [2, -4],
    [7, -1.5],
  ])('a straight one, %i slashes opened %d mm: bends one way, without a corner', (lines, spread) => {
    const drawn = spreadEvenly(straight(80), cutsOf(80, lines), openings(80, lines, spread))!;
    const all = bends(drawn);
    const way = Math.sign(spread);
    const nodes = all.filter(({ along }) => along === 0);
    expect(nodes).toHaveLength(drawn.segments.length - 1);
    expect(Math.max(...nodes.map(({ by }) => Math.abs(by)))).toBeLessThan(0.1);
    expect(Math.min(...all.map(({ by }) => by * way))).toBeGreaterThan(-0.1);
    const whole = all.reduce((sum, { by }) => sum + by, 0);
    expect(whole).toBeCloseTo(degrees(2 * Math.asin(spread / 400)) * lines, 1);
  });

  test('its two ends go with the outermost parts, there and in direction', () => {
    const motions = openings(80, 7, 2);
    const arc: Path = { segments: [cubic(point(0, -200), point(25, -215), point(55, -215), point(80, -200))] };
    const drawn = spreadEvenly(arc, cutsOf(80, 7), motions)!;
    expect(drawn.segments[0]!.start).toEqual(point(0, -200));
    expect(turn(tangentOn(drawn.segments[0]!, 0), derivativeOn(arc.segments[0]!, 0))).toBeCloseTo(0, 3);
    expect(distance(pathEnd(drawn), transformPoint(point(80, -200), motions.at(-1)!))).toBeLessThan(1e-9);
  });
});
