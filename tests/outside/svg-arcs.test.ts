/**
 * W3C, SVG 2, appendix "Implementation Notes", "Elliptical arc implementation notes": how an arc's centre and angles follow from its
 * end points, and what happens to radii out of range. Centres and angles of the examples were computed from those formulas
 * apart from this program, to the digits given.
 */
import { describe, expect, it } from 'vitest';
import { arcToCubics, centredArc, type Arc } from '../../src/svg/arc-to-cubics.ts';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { point } from '../../src/geometry/point.ts';
import { cubic } from '../../src/geometry/segment.ts';
import { drawingOf, millimetres } from '../svg/drawn-svg.ts';

const origin = point(0, 0);
const degrees = (radians: number): number => (radians * 180) / Math.PI;
const arc = (rx: number, ry: number, turn: number, large: number, sweep: number): Arc => ({
  rx,
  ry,
  turn,
  large: large === 1,
  sweep: sweep === 1,
});

const EXAMPLES = [
  { to: point(100, 100), arc: arc(100, 100, 0, 0, 1), centre: [0, 100], radii: [100, 100], start: -90, sweep: 90 },
  { to: point(100, 100), arc: arc(100, 100, 0, 1, 0), centre: [0, 100], radii: [100, 100], start: -90, sweep: -270 },
  { to: point(100, 0), arc: arc(10, 10, 0, 0, 1), centre: [50, 0], radii: [50, 50], start: 180, sweep: 180 },
  {
    to: point(100, 50),
    arc: arc(80, 40, 30, 0, 1),
    centre: [41.744975, 52.869816],
    radii: [80, 40],
    start: -141.47523,
    sweep: 89.259695,
  },
];

describe('an arc by its end points', () => {
  it.each(EXAMPLES)('has its centre at $centre and turns by $sweep degrees', (example) => {
    const found = centredArc(origin, example.to, example.arc)!;
    expect([found.centre.x, found.centre.y].map((v) => v.toFixed(6))).toEqual(example.centre.map((v) => v.toFixed(6)));
    expect([found.rx, found.ry]).toEqual(example.radii.map((r) => expect.closeTo(r, 9)));
    expect(Math.cos(found.startAngle - (example.start * Math.PI) / 180)).toBeCloseTo(1, 9);
    expect(degrees(found.sweepAngle)).toBeCloseTo(example.sweep, 5);
  });

  it('is a straight line where a radius is 0, and nothing where its ends are one point', () => {
    const { strokes } = drawingOf(millimetres('<path d="M10 10 A 0 40 0 0 1 60 10 A 20 20 0 1 1 60 10"/>'));
    const line = { kind: 'line', start: point(10, 10), end: point(60, 10) };
    expect(strokes.map(({ path }) => path.segments)).toEqual([[line]]);
  });

  it('takes a negative radius for a positive one, and a turn for what is left of full turns', () => {
    const plain = centredArc(origin, point(100, 50), arc(80, 40, 30, 0, 1));
    expect(centredArc(origin, point(100, 50), arc(-80, -40, 30, 0, 1))).toEqual(plain);
    const turned = centredArc(origin, point(100, 50), arc(80, 40, 750, 0, 1))!;
    expect(turned.centre.x).toBeCloseTo(plain!.centre.x, 9);
  });

  it('turns one way with sweep 0 and the other with 1, past half a turn with the large flag only', () => {
    for (const large of [0, 1]) {
      for (const sweep of [0, 1]) {
        const { sweepAngle } = centredArc(origin, point(100, 30), arc(90, 70, 20, large, sweep))!;
        expect(Math.sign(sweepAngle)).toBe(sweep === 1 ? 1 : -1);
        expect(Math.abs(sweepAngle) > Math.PI).toBe(large === 1);
      }
    }
  });
});

const circle = (r: number): number =>
  drawingOf(millimetres(`<circle cx="500" cy="500" r="${r}"/>`)).outlines[0]!.path.segments.length;

describe('its cubics', () => {
  it('stay within the tolerance of the true ellipse, from the size of an eyelet to that of a room', () => {
    for (const radius of [2, 100, 1000, 5000]) {
      const found = centredArc(point(radius, 0), point(-radius, 0), arc(radius, radius / 2, 0, 1, 1))!;
      let from = point(radius, 0);
      for (const { startHandle, endHandle, end } of arcToCubics(found, 0.001)) {
        const piece = cubic(from, startHandle, endHandle, end);
        for (let t = 0; t <= 1; t += 1 / 64) {
          const { x, y } = pointOn(piece, t);
          // Off the ellipse by about this much, as seen along the larger radius.
          expect(Math.abs(Math.hypot(x / radius, y / (radius / 2)) - 1) * radius).toBeLessThan(0.0011);
        }
        from = end;
      }
      expect(from.x).toBeCloseTo(-radius, 9);
    }
  });

  it('are no more than needed: 4 for an eyelet, 8 for a circle of 100 mm', () => {
    expect(circle(2)).toBe(4);
    expect(circle(100)).toBe(8);
  });
});

it('a smooth command mirrors the handle before it about the current point', () => {
  const { strokes } = drawingOf(
    millimetres('<path d="M10 10 C 20 40 40 50 50 30 S 80 0 90 20"/><path d="M10 10 Q 20 40 50 30 T 90 20 T 95 5"/>'),
  );
  const [, smooth] = strokes[0]!.path.segments;
  // 2 · current - previous second control
  expect(smooth).toMatchObject({ startHandle: { x: expect.closeTo(60, 9), y: expect.closeTo(10, 9) } });
  const explicit = drawingOf(millimetres('<path d="M10 10 Q 20 40 50 30 Q 80 20 90 20 Q 100 20 95 5"/>')).strokes[0]!;
  const flat = (path: typeof explicit.path): number[] =>
    path.segments.flatMap((s) =>
      s.kind === 'cubic' ? [s.startHandle.x, s.startHandle.y, s.endHandle.x, s.endHandle.y] : [],
    );
  const difference = flat(strokes[1]!.path).map((v, i) => Math.abs(v - flat(explicit.path)[i]!));
  expect(Math.max(...difference)).toBeLessThan(1e-9);
});
