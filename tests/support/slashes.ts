/** Short ways of writing a slashing in tests, and the box panel that they are tried on. */

import type { Slash } from '../../src/alterations/slash-options.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { at } from './moves.ts';
import { panelOf, run } from './shaped-panels.ts';

/** From the bottom to the waist of the panel called `box`, one slash opened 6 mm, the middle kept, unless more is said. */
export const slashing = (more: Partial<Slash> = {}): Slash => ({
  panel: 'box',
  from: 'bottom',
  hinge: at('waist'),
  lines: 1,
  at: [],
  spread: 6,
  keep: 'middle',
  ...more,
});

/** The same without a hinge. */
export const parallel = (more: Partial<Slash> = {}): Slash => {
  const { hinge: _hinge, ...rest } = slashing(more);
  return rest;
};

/** A rectangle of 100 by 380 mm, the waist 200 mm below its top. */
export const boxPanel = (name = 'box', seams: readonly [string, string] = ['cf', 'cb']): Panel =>
  panelOf({
    name,
    seams,
    top: run([0, -200], [100, -200]),
    back: run([100, -200], [100, 180]),
    bottom: run([100, 180], [0, 180]),
    front: run([0, 180], [0, -200]),
    levels: { bust: -170, underbust: -100, waist: 0, 'high-hip': 80, hip: 150 },
  });
