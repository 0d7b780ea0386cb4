/** Setting gussets in, for tests; and what must hold of every gusset that was set in. */

import { expect } from 'vitest';
import type { GussetWanted } from '../../src/alterations/gusset-options.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { seamSidesOf } from '../../src/pattern/look-up.ts';
import { openingLength } from '../../src/pattern/opening.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { expectSoundPanel } from './invariants.ts';
import { at } from './moves.ts';

export const intoSeam = (width: number, more: Partial<GussetWanted> = {}, offset = -40): GussetWanted => ({
  place: { kind: 'seam', seam: 'side', below: at('waist', offset) },
  width,
  sides: 'straight',
  ...more,
});

export const intoSlit = (panel: string, fraction: number, width: number, offset = -40): GussetWanted => ({
  place: { kind: 'slit', panel, level: at('waist', offset), fraction },
  width,
  sides: 'straight',
});

export const gussetsOf = (pattern: Pattern): Panel[] => pattern.panels.filter(({ gusset }) => gusset);

/** Every panel sound; the edges and levels of all others the very same objects; each side of a gusset as long as its opening. */
export const expectSetIn = (before: Pattern, after: Pattern): void => {
  for (const panel of after.panels) expectSoundPanel(panel);
  const others = after.panels.filter(({ gusset }) => !gusset);
  expect(others.map(({ name }) => name)).toEqual(before.panels.filter(({ gusset }) => !gusset).map(({ name }) => name));
  for (const panel of others) {
    const old = before.panels.find(({ name }) => name === panel.name)!;
    expect(panel.edges, `${panel.name}: edges`).toBe(old.edges);
    expect(panel.levels, `${panel.name}: levels`).toBe(old.levels);
    expect(panel.grain, `${panel.name}: grain`).toBe(old.grain);
  }
  for (const gusset of gussetsOf(after)) expectSidesFit(after, gusset);
};

const expectSidesFit = (pattern: Pattern, gusset: Panel): void => {
  const sides = seamSidesOf(gusset)!;
  const openings = pattern.panels.flatMap((panel) =>
    (panel.slits ?? []).filter((slit) => slit.gusset === gusset.name).map((slit) => ({ panel, slit })),
  );
  expect(openings.length, `${gusset.name}: openings`).toBeGreaterThan(0);
  for (const { panel, slit } of openings) {
    const opening = openingLength(panel, slit)!;
    const front = seamSidesOf(panel)!.back.name === slit.edge || slit.edge === undefined;
    const back = seamSidesOf(panel)!.front.name === slit.edge || slit.edge === undefined;
    if (front) expect(Math.abs(pathLength(sides.front.path) - opening), `${gusset.name}, front`).toBeLessThan(0.01);
    if (back) expect(Math.abs(pathLength(sides.back.path) - opening), `${gusset.name}, back`).toBeLessThan(0.01);
  }
};
