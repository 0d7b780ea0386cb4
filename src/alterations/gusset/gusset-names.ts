/** What a gusset is called. */

import { usage } from '../../errors.ts';
import type { Side } from '../../pattern/panel.ts';
import type { Pattern } from '../../pattern/pattern.ts';
import type { GussetWanted } from '../gusset-options.ts';

const withSide = (name: string, side: Side | undefined): string => {
  if (side === undefined || name.endsWith(`-${side}`)) return name;
  return `${name}-${side}`;
};

/** A name without the side that it ends in. */
export const withoutSide = (name: string, side: Side | undefined): string =>
  side !== undefined && name.endsWith(`-${side}`) ? name.slice(0, -side.length - 1) : name;

/** The name as typed, or one made from the place, which is not taken yet. */
export const gussetName = (pattern: Pattern, { place, name }: GussetWanted): string => {
  if (name !== undefined) return name;
  if (place.kind === 'seam') return `${place.seam}-gusset`;
  const side = pattern.panels.find((panel) => panel.name === place.panel)?.side;
  const base = `${withoutSide(place.panel, side)}-gusset`;
  const taken = (tried: string): boolean =>
    pattern.panels.some((panel) => panel.name === tried || panel.name === withSide(tried, side));
  let tried = base;
  for (let count = 2; taken(tried); count += 1) tried = `${base}-${count}`;
  return tried;
};

/** The panel's name, which ends in its side where there is one; a name typed for a slit, which has one side only, is taken as it is. */
export const panelName = (base: string, side: Side | undefined, { place, name }: GussetWanted): string =>
  place.kind === 'slit' && name !== undefined ? name : withSide(base, side);

/** Refuses a name that another panel has, or whose sides would be called as a seam is. */
export const checkGussetName = (pattern: Pattern, name: string, edges: string): void => {
  if (name.trim() === '') throw usage('is empty', '--name', 'give the gusset a name, or leave --name out');
  if (pattern.panels.some((panel) => panel.name === name)) {
    throw usage(`a panel is called ${name} already`, '--name', 'give the gusset a name of its own');
  }
  const others = pattern.panels.filter((panel) => panel.gusset === undefined);
  const taken = [`${edges}-front`, `${edges}-back`].find((own) =>
    others.some((panel) => panel.edges.some((edge) => edge.name === own)),
  );
  if (taken !== undefined) {
    throw usage(`its side would be called ${taken}, which is a seam already`, '--name', 'give the gusset another name');
  }
};

/** The gussets of that name that are in the pattern where it is to be set in: they are taken out first. */
export const replacedNames = (pattern: Pattern, base: string, wanted: GussetWanted): string[] => {
  const { place } = wanted;
  const hosts = pattern.panels.filter((panel) =>
    place.kind === 'slit' ? panel.name === place.panel : panel.edges.some(({ name }) => name === place.seam),
  );
  const names = new Set(hosts.map(({ side }) => panelName(base, side, wanted)));
  return pattern.panels.filter((panel) => panel.gusset && names.has(panel.name)).map(({ name }) => name);
};
