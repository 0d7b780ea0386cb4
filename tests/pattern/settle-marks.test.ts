import { describe, expect, test } from 'vitest';
import { lengthTo } from '../../src/geometry/arc-length.ts';
import { crossHorizontal } from '../../src/geometry/intersect.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import type { Path } from '../../src/geometry/path.ts';
import { distance, type Point } from '../../src/geometry/point.ts';
import { translatePath } from '../../src/geometry/transform-path.ts';
import { edgeNamed } from '../../src/pattern/look-up.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { settleMarks } from '../../src/pattern/settle-marks.ts';
import { curvedPanel, panelOf, run, straightPanel, withNotches } from '../support/shaped-panels.ts';

/** How far along the edge from the waist a point lies. */
const fromWaist = (path: Path, p: Point): number =>
  lengthTo(path, nearestPoint(path, p).location) - lengthTo(path, crossHorizontal(path, 0)[0]!.location);

/** The panel with one edge's path in place of the old one; the outline need not be closed for marks to be settled. */
const withEdge = (panel: Panel, name: string, path: Path): Panel => ({
  ...panel,
  edges: panel.edges.map((edge) => (edge.name === name ? { name, path } : edge)),
});

describe('a notch on a seam', () => {
  const before = withNotches(curvedPanel());
  const steeper: Path = { segments: run([104, -190], [140, -100, 78, -60, 76, 0], [74, 60, 98, 110, 112, 175]) };
  const after = settleMarks(before, withEdge(before, 'cb', steeper));

  test('keeps its distance along the seam from the waist', () => {
    const old = fromWaist(edgeNamed(before, 'cb').path, before.notches[1]!.at);
    expect(fromWaist(steeper, after.notches[1]!.at)).toBeCloseTo(old, 3);
    expect(old).toBeLessThan(-50);
  });

  test('keeps its length and stays at right angles to the seam', () => {
    const { at, inner } = after.notches[1]!;
    expect(distance(at, inner)).toBeCloseTo(6, 9);
    expect(nearestPoint(steeper, inner).distance).toBeCloseTo(6, 3);
  });

  test('on another edge is the very same mark', () => {
    expect([0, 2, 3].map((i) => after.notches[i] === before.notches[i])).toEqual([true, true, true]);
  });
});

test('a notch past the end of a shortened seam stops at its end', () => {
  const before = withNotches(straightPanel());
  const short: Path = { segments: run([92, -120], [80, 0], [105, 180]) };
  const low = { ...before, notches: [{ edge: 'cb', at: { x: 98, y: -180 }, inner: { x: 92, y: -180 } }] };
  expect(distance(settleMarks(low, withEdge(low, 'cb', short)).notches[0]!.at, { x: 92, y: -120 })).toBeLessThan(1e-9);
});

test('a notch on a top edge stays where it is while the edge still runs there', () => {
  const before = withNotches(straightPanel());
  const longer: Path = { segments: run([0, -200], [130, -200]) };
  expect(settleMarks(before, withEdge(before, 'top', longer)).notches[0]).toBe(before.notches[0]);
  const trimmed: Path = { segments: run([0, -200], [30, -200]) };
  expect(settleMarks(before, withEdge(before, 'top', trimmed)).notches[0]!.at).toEqual({ x: 30, y: -200 });
});

test('levels reach to the new edges at their old heights, and the grain stays', () => {
  const before: Panel = { ...straightPanel(), grain: { from: { x: 50, y: -100 }, to: { x: 50, y: 100 } } };
  const moved = translatePath(edgeNamed(before, 'cb').path, { dx: 10, dy: 0 });
  const after = settleMarks(before, withEdge(before, 'cb', moved));
  for (const [i, level] of after.levels.entries()) {
    expect(level.fromX).toBeCloseTo(before.levels[i]!.fromX, 9);
    expect(level.toX).toBeCloseTo(before.levels[i]!.toX + 10, 9);
    expect(level.y).toBe(before.levels[i]!.y);
  }
  expect(after.grain).toBe(before.grain);
});

test('with nothing changed the panel is the very same object', () => {
  const panel = withNotches(straightPanel());
  expect(settleMarks(panel, panel)).toBe(panel);
});

test('without a waist a notch keeps its distance from the start of its edge', () => {
  const before = withNotches(
    panelOf({
      name: 'high',
      seams: ['cf', 'cb'],
      top: run([0, -200], [100, -200]),
      back: run([100, -200], [100, -50]),
      bottom: run([100, -50], [0, -50]),
      front: run([0, -50], [0, -200]),
      levels: { bust: -120 },
    }),
  );
  const moved: Path = { segments: run([110, -200], [110, -50]) };
  expect(settleMarks(before, withEdge(before, 'cb', moved)).notches[1]!.at.y).toBeCloseTo(-125, 6);
});
