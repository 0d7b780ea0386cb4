import { describe, expect, it } from 'vitest';
import { translatePath } from '../../src/geometry/transform-path.ts';
import { reversePath } from '../../src/geometry/reverse-path.ts';
import type { Edge, Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { expectSound } from '../support/invariants.ts';
import { allShapes, curvedPanel, halfPattern, patternOf } from '../support/shaped-panels.ts';

const withEdge = (panel: Panel, name: string, change: (edge: Edge) => Edge): Pattern =>
  patternOf({ ...panel, edges: panel.edges.map((edge) => (edge.name === name ? change(edge) : edge)) });

describe('the invariants', () => {
  it.each(allShapes)('hold of sound panels', (shape) => {
    expect(() => expectSound(patternOf(shape()), patternOf(shape()), [])).not.toThrow();
  });

  it('hold of a half pattern', () => {
    expect(() => expectSound(halfPattern(), halfPattern(), [])).not.toThrow();
  });

  const panel = curvedPanel();
  const before = patternOf(panel);
  const broken: Readonly<Record<string, readonly [Pattern, string]>> = {
    'an edge moved away from its neighbours': [
      withEdge(panel, 'cb', (edge) => ({ ...edge, path: translatePath(edge.path, { dx: 0.001, dy: 0 }) })),
      'ends where',
    ],
    'an outline that runs the wrong way': [
      patternOf({
        ...panel,
        edges: panel.edges.toReversed().map(({ name, path }) => ({ name, path: reversePath(path) })),
      }),
      'runs clockwise',
    ],
    'an edge that lost its characters': [
      withEdge(panel, 'top', ({ name, path }) => ({ name, path })),
      'keeps its characters',
    ],
    'a notch off its edge': [
      patternOf({ ...panel, notches: [{ edge: 'cb', at: { x: 75.9, y: 0 }, inner: { x: 70, y: 0 } }] }),
      'off its edge',
    ],
    'a level that ends short of the edge': [
      patternOf({
        ...panel,
        levels: panel.levels.map(({ name, y, fromX, toX }) => ({ name, y, fromX, toX: toX - 0.02 })),
      }),
      'ends on the edge',
    ],
    'a level lost': [patternOf({ ...panel, levels: panel.levels.slice(1) }), 'levels'],
    'a cutting line that is open': [patternOf({ ...panel, cutting: panel.edges[0]!.path }), 'closed'],
  };

  it.each(Object.entries(broken))('fail for %s', (_, [after, reason]) => {
    expect(() => expectSound(before, after, [])).toThrow(reason);
  });

  it('fail for an outline that crosses itself', () => {
    const moved = (dx: number): Pattern =>
      patternOf({
        ...panel,
        edges: panel.edges.map((edge) =>
          edge.name === 'cb'
            ? {
                name: 'cb',
                path: {
                  segments: edge.path.segments.map((s, i) =>
                    i === 0 ? { ...s, end: { x: dx, y: 0 } } : { ...s, start: { x: dx, y: 0 } },
                  ),
                },
              }
            : edge,
        ),
        levels: [],
      });
    const bare = patternOf({ ...panel, levels: [] });
    expect(() => expectSound(bare, moved(-40))).toThrow('crosses itself');
    expect(() => expectSound(bare, moved(80))).not.toThrow();
  });
});
