import { expect, test } from 'vitest';
import { chordAt, seamSpan } from '../../src/pattern/chord.ts';
import {
  curvedPanel,
  mirrored,
  panelOf,
  run,
  straightPanel,
  swingingPanel,
  allShapes,
} from '../support/shaped-panels.ts';

test('the chord of straight edges is the difference of two interpolations', () => {
  const chord = chordAt(straightPanel(), -100)!;
  expect(chord.fromX).toBeCloseTo(5, 10);
  expect(chord.toX).toBeCloseTo(90, 10);
  expect(chord.width).toBeCloseTo(85, 10);
});

test('at a joint, a corner and the very ends the chord is found', () => {
  expect(chordAt(straightPanel(), 0)!.width).toBeCloseTo(70, 10);
  expect(chordAt(straightPanel(), -200)!.width).toBeCloseTo(100, 10);
  expect(chordAt(straightPanel(), 180)!.width).toBeCloseTo(110, 10);
});

test('a level beyond the end of either seam has no chord', () => {
  expect(chordAt(curvedPanel(), -195)).toBeUndefined();
  expect(chordAt(curvedPanel(), 180)).toBeUndefined();
  expect(seamSpan(curvedPanel())).toEqual({ top: -190, bottom: 175 });
});

test('where a seam crosses a level three times the width is what lies inside', () => {
  const panel = swingingPanel();
  const width = chordAt(panel, 0)!.width;
  let inside = 0;
  const edge = panel.edges[1]!.path.segments.flatMap((s) =>
    Array.from({ length: 4000 }, (_, i) => {
      if (s.kind === 'line') throw new Error('the seam is drawn with curves');
      const t = i / 4000;
      const at = (a: number, b: number, c: number, d: number): number =>
        a * (1 - t) ** 3 + 3 * b * t * (1 - t) ** 2 + 3 * c * t * t * (1 - t) + d * t ** 3;
      return {
        x: at(s.start.x, s.startHandle.x, s.endHandle.x, s.end.x),
        y: at(s.start.y, s.startHandle.y, s.endHandle.y, s.end.y),
      };
    }),
  );
  let passes = 0;
  for (const [i, p] of edge.slice(1).entries()) {
    if (edge[i]!.y < 0 === p.y < 0) continue;
    inside += edge[i]!.y < p.y ? p.x : -p.x;
    passes += 1;
  }
  expect(passes).toBe(3);
  expect(width).toBeCloseTo(inside - chordAt(panel, 0)!.fromX, 1);
});

test('a panel seen from its other side has the same chords', () => {
  for (const shape of allShapes) {
    for (const y of [-170, -100, -33.3, 0, 80, 150]) {
      expect(chordAt(mirrored(shape()), y)!.width).toBeCloseTo(chordAt(shape(), y)!.width, 9);
    }
  }
});

test('a step that runs along the level still gives one chord', () => {
  const panel = panelOf({
    name: 'stepped',
    seams: ['cf', 'cb'],
    top: run([0, -100], [80, -100]),
    back: run([80, -100], [80, 0], [60, 0], [60, 100]),
    bottom: run([60, 100], [0, 100]),
    front: run([0, 100], [0, -100]),
    levels: {},
  });
  expect([60, 80]).toContain(chordAt(panel, 0)!.width);
});
