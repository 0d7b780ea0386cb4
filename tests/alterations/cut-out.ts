import { expect } from 'vitest';
import { pathStart } from '../../src/geometry/path.ts';
import { distance } from '../../src/geometry/point.ts';
import { translatePath } from '../../src/geometry/transform-path.ts';
import { vectorTo } from '../../src/geometry/vector.ts';
import { labelDrawing } from '../../src/labelling/label-drawing.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { answers, drawing, open, outline, stroke } from '../labelling/drawn.ts';
import { farthestApart } from '../support/shaped-panels.ts';

/**
 * What another maker has in hand of a panel: its cutting line drawn as one outline, with the levels and notches, labelled anew.
 * Nothing of the stitching line is known any more.
 */
export const cutOut = (panel: Panel): Pattern => {
  const drawn = drawing(
    [outline(panel.cutting!, panel.name)],
    [
      ...panel.levels.map((level) => stroke(open([level.fromX, level.y], [level.toX, level.y]), level.name)),
      ...panel.notches.map((notch) => stroke(open([notch.at.x, notch.at.y], [notch.inner.x, notch.inner.y]), 'notch')),
    ],
  );
  const seams = [panel.edges[3]!.name, panel.edges[1]!.name];
  return labelDrawing(drawn, answers({ line: 'cutting', panels: [panel.name], seams })).pattern;
};

/** That two panels are the same but for where they lie: every edge within `bound`, its corners too. */
export const expectSameEdges = (got: Panel, wanted: Panel, bound: number): void => {
  const shift = vectorTo(pathStart(got.edges[0]!.path), pathStart(wanted.edges[0]!.path));
  const level = wanted.levels.find(({ name }) => name === 'waist');
  const dy = level === undefined ? shift.dy : level.y - got.levels.find(({ name }) => name === 'waist')!.y;
  const wrong = wanted.edges.flatMap((edge, at) => {
    const moved = translatePath(got.edges[at]!.path, { dx: shift.dx, dy });
    const apart = farthestApart(moved, edge.path);
    const corner = distance(pathStart(moved), pathStart(edge.path));
    return apart <= bound && corner <= bound
      ? []
      : [`${wanted.name}, ${edge.name}: ${apart} mm, its corner ${corner} mm`];
  });
  expect(wrong).toEqual([]);
};
