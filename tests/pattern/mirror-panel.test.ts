import { describe, expect, it } from 'vitest';
import { signedArea } from '../../src/geometry/area.ts';
import { asDrawn, mirrorPanel } from '../../src/pattern/mirror-panel.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { expectSoundPanel } from '../support/invariants.ts';
import { allShapes, withNotches } from '../support/shaped-panels.ts';

const full = (panel: Panel): Panel => ({
  ...withNotches(panel),
  side: 'right',
  grain: { from: { x: 40, y: -90 }, to: { x: 40, y: 90 } },
  bones: [{ segments: panel.edges[1]!.path.segments }],
  cutting: outlineOf(panel),
});

describe('a panel in the mirror', () => {
  it.each(allShapes.map((make) => [make().name, make] as const))('is itself again the second time: %s', (_, make) => {
    expect(mirrorPanel(mirrorPanel(full(make())))).toEqual(full(make()));
  });

  it.each(allShapes.map((make) => [make().name, make] as const))('is sound, of the same area: %s', (_, make) => {
    const mirror = mirrorPanel(full(make()));
    expectSoundPanel(mirror);
    expect(signedArea(outlineOf(mirror))).toBeCloseTo(signedArea(outlineOf(make())), 6);
    expect(mirror.edges.map(({ name }) => name)).toEqual(['top', 'cf', 'bottom', 'cb']);
  });

  it('is how a panel of the right is drawn, and no other', () => {
    const panel = full(allShapes[1]!());
    expect(asDrawn(panel)).toEqual(mirrorPanel(panel));
    const { side: _, ...pair } = panel;
    expect(asDrawn(pair)).toBe(pair);
    const left: Panel = { ...panel, side: 'left' };
    expect(asDrawn(left)).toBe(left);
  });
});
