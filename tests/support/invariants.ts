/** What must hold of every pattern after every alteration, checked by one function. */
import { expect } from 'vitest';
import { signedArea } from '../../src/geometry/area.ts';
import { selfCrossings } from '../../src/geometry/intersect.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { isClosed, pathEnd, pathStart, type Path } from '../../src/geometry/path.ts';
import { point, samePoint } from '../../src/geometry/point.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import type { Edge, Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';

/** How far a mark may lie off its edge, in millimetres. */
const ON_EDGE = 0.01;

/** An edge that a command was meant to change. */
export interface ChangedEdge {
  readonly panel: string;
  readonly edge: string;
}

const expectFinite = (path: Path, where: string): void => {
  const points = path.segments.flatMap((s) =>
    s.kind === 'line' ? [s.start, s.end] : [s.start, s.startHandle, s.endHandle, s.end],
  );
  expect(
    points.filter((p) => !Number.isFinite(p.x) || !Number.isFinite(p.y)),
    `${where}: finite numbers`,
  ).toEqual([]);
};

const expectContinuous = (path: Path, where: string): void => {
  const broken = path.segments.findIndex((s, i) => i > 0 && !samePoint(path.segments[i - 1]!.end, s.start));
  expect(broken, `${where}: each segment goes on from the one before it`).toBe(-1);
};

/** A closed line that runs clockwise and nowhere crosses itself. */
const expectSoundOutline = (path: Path, where: string): void => {
  expectFinite(path, where);
  expectContinuous(path, where);
  expect(isClosed(path), `${where}: closed`).toBe(true);
  expect(signedArea(path), `${where}: runs clockwise`).toBeGreaterThan(0);
  expect(
    selfCrossings(path).map((c) => c.point),
    `${where}: crosses itself`,
  ).toEqual([]);
};

const expectSoundMarks = (panel: Panel): void => {
  const outline = outlineOf(panel);
  for (const notch of panel.notches) {
    const where = `panel ${panel.name}, notch on ${notch.edge}`;
    const edge = panel.edges.find(({ name }) => name === notch.edge);
    expect(edge, `${where}: its edge is there`).toBeDefined();
    expect(nearestPoint(edge!.path, notch.at).distance, `${where}: off its edge`).toBeLessThanOrEqual(ON_EDGE);
  }
  for (const [i, level] of panel.levels.entries()) {
    const where = `panel ${panel.name}, level ${level.name}`;
    expect(level.fromX, `${where}: runs from front to back`).toBeLessThan(level.toX);
    for (const x of [level.fromX, level.toX]) {
      expect(nearestPoint(outline, point(x, level.y)).distance, `${where}: ends on the edge`).toBeLessThanOrEqual(
        ON_EDGE,
      );
    }
    if (i > 0) expect(panel.levels[i - 1]!.y, `${where}: lies below the level before it`).toBeLessThan(level.y);
  }
};

/** One panel: edges end to end round a closed, clockwise, uncrossed outline; notches on their edges; levels from edge to edge. */
export const expectSoundPanel = (panel: Panel): void => {
  for (const [i, edge] of panel.edges.entries()) {
    const where = `panel ${panel.name}, edge ${edge.name}`;
    expect(edge.path.segments.length, `${where}: has a segment`).toBeGreaterThan(0);
    const next = panel.edges[(i + 1) % panel.edges.length]!;
    expect(samePoint(pathEnd(edge.path), pathStart(next.path)), `${where}: ends where ${next.name} begins`).toBe(true);
  }
  expectSoundOutline(outlineOf(panel), `panel ${panel.name}`);
  if (panel.cutting) expectSoundOutline(panel.cutting, `panel ${panel.name}, cutting line`);
  expectSoundMarks(panel);
};

const expectUntouched = (before: Edge, after: Edge, where: string): void => {
  expect(after.path, `${where}: was not to change`).toEqual(before.path);
  expect(after.text, `${where}: keeps its characters`).toBe(before.text);
};

const nodesOf = (edge: Edge): number => edge.path.segments.length + 1;

/** At most twice the nodes that an edge had, and four more; its two ends are nodes as well. */
const expectFewNodes = (before: Edge, after: Edge, where: string): void => {
  expect(nodesOf(after), `${where}: too many nodes`).toBeLessThanOrEqual(2 * nodesOf(before) + 4);
};

/**
 * Checks every panel of `after`; that panels, edges, levels and notches are still there; that no edge gathered nodes; that an edge which
 * still carries its text still is that text's path; and, where `changedEdges` says what was to change, that every other edge is untouched.
 */
export const expectSound = (before: Pattern, after: Pattern, changedEdges?: readonly ChangedEdge[]): void => {
  expect(after.panels.map(({ name }) => name)).toEqual(before.panels.map(({ name }) => name));
  for (const [i, panel] of after.panels.entries()) {
    const old = before.panels[i]!;
    expectSoundPanel(panel);
    expect(
      panel.edges.map(({ name }) => name),
      `panel ${panel.name}: edges`,
    ).toEqual(old.edges.map(({ name }) => name));
    expect(
      panel.levels.map(({ name }) => name),
      `panel ${panel.name}: levels`,
    ).toEqual(old.levels.map(({ name }) => name));
    expect(panel.notches, `panel ${panel.name}: notches`).toHaveLength(old.notches.length);
    for (const [j, edge] of panel.edges.entries()) {
      const where = `panel ${panel.name}, edge ${edge.name}`;
      const was = old.edges[j]!;
      const meant = changedEdges?.some((c) => c.panel === panel.name && c.edge === edge.name) ?? true;
      if (!meant || edge.text !== undefined) expectUntouched(was, edge, where);
      expectFewNodes(was, edge, where);
    }
  }
};
