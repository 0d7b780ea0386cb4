/** Whether each gusset still fits the openings that it is set into. */

import { pathLength } from '../geometry/arc-length.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import { heightWords } from './check-outline.ts';
import type { Finding } from './finding.ts';
import { formatLength } from './format-length.ts';
import { seamSidesOf } from './look-up.ts';
import { openingLength, pointAlong } from './opening.ts';
import type { Panel, Slit } from './panel.ts';
import type { Pattern, Units } from './pattern.ts';
import { hostsOf } from './width-at.ts';

/** A side that differs by no more can be sewn into its opening without easing: as the edges of a seam. */
const SIDES_DIFFER = 1.5;

/** A mark farther off its edge was moved, not rounded. */
const OFF_EDGE = 0.05;

/** The sides of a gusset that are sewn to one opening: to a panel's back edge its front side, to a front edge its back side, to a slit both. */
const sewnSides = (panel: Panel, { edge }: Slit): readonly ('front' | 'back')[] => {
  if (edge === undefined) return ['front', 'back'];
  return seamSidesOf(panel)?.front.name === edge ? ['back'] : ['front'];
};

const openingsOf = (pattern: Pattern, gusset: Panel): { readonly panel: Panel; readonly slit: Slit }[] =>
  hostsOf(pattern, gusset).flatMap((panel) =>
    (panel.slits ?? []).filter((slit) => slit.gusset === gusset.name).map((slit) => ({ panel, slit })),
  );

const gussetFindings = (pattern: Pattern, gusset: Panel): Finding[] => {
  const openings = openingsOf(pattern, gusset);
  if (openings.length === 0) {
    const message = 'is a gusset, but no panel has an opening for it';
    const cure = 'set it in with staywright gusset, or take it out of the sheet';
    return [{ weight: 'error', kind: 'gusset-without-opening', where: `panel ${gusset.name}`, message, cure }];
  }
  const sides = seamSidesOf(gusset);
  return openings.flatMap(({ panel, slit }) => {
    const opening = openingLength(panel, slit);
    if (sides === undefined || opening === undefined) return [];
    const off = sewnSides(panel, slit).map((side) => ({ side, by: pathLength(sides[side].path) - opening }));
    const [worst] = off.toSorted((a, b) => Math.abs(b.by) - Math.abs(a.by));
    if (worst === undefined || Math.abs(worst.by) <= SIDES_DIFFER) return [];
    return [differs(gusset, panel, worst.side, worst.by, pattern.units)];
  });
};

/** The two edges of a seam must reach the reinforcement point together, or the gusset is sewn in askew. */
const pointFindings = (pattern: Pattern, gusset: Panel): Finding[] => {
  const [one, other, ...more] = openingsOf(pattern, gusset).flatMap(({ panel, slit }) => {
    const along = pointAlong(panel, slit);
    return along === undefined ? [] : [{ panel: panel.name, seam: slit.edge, along }];
  });
  if (one === undefined || other === undefined || more.length > 0) return [];
  const by = Math.abs(one.along - other.along);
  if (by <= SIDES_DIFFER) return [];
  const { seam } = one;
  const [lower, higher] = one.along > other.along ? [one, other] : [other, one];
  return [
    {
      weight: 'warning',
      kind: 'points-apart',
      where: `panel ${gusset.name}`,
      message: `its point lies ${formatLength(by, pattern.units)} lower along the seam on ${lower.panel} than on ${higher.panel}`,
      cure: `ease the lower one up, or make the two edges alike before the gusset is set in: staywright true --seam ${seam}`,
    },
  ];
};

const differs = (gusset: Panel, host: Panel, side: 'front' | 'back', by: number, units: Units): Finding => ({
  weight: 'warning',
  kind: 'gusset-differs',
  where: `panel ${gusset.name}`,
  message: `its ${side} side is ${formatLength(Math.abs(by), units)} ${by < 0 ? 'shorter' : 'longer'} than its opening on ${host.name}`,
  cure: `set it in again: staywright gusset with --name ${gusset.name}${gusset.side ? ` --side ${gusset.side}` : ''} takes the old one out first`,
});

const slitFindings = (pattern: Pattern, panel: Panel): Finding[] =>
  (panel.slits ?? []).flatMap((slit): Finding[] => {
    const where = `panel ${panel.name}, opening for ${slit.gusset}`;
    if (!pattern.panels.some(({ name, gusset }) => gusset && name === slit.gusset)) {
      const message = 'there is no such gusset in the sheet';
      const cure = `make it with staywright gusset and --name ${slit.gusset}`;
      return [{ weight: 'error', kind: 'opening-without-gusset', where, message, cure }];
    }
    const [name, end] = slit.edge === undefined ? ['bottom', slit.to] : [slit.edge, slit.at];
    const edge = panel.edges.find((own) => own.name === name);
    const off = edge && nearestPoint(edge.path, end).distance;
    if (off !== undefined && off <= OFF_EDGE) return [];
    const place = heightWords(panel, end, pattern.units);
    const message =
      slit.edge === undefined
        ? `the slit ends ${place}, off the bottom edge`
        : `its reinforcement point, ${place}, lies off edge ${name}`;
    const cure = `set the gusset in again: staywright gusset with --name ${slit.gusset}`;
    return [{ weight: 'warning', kind: 'opening-off-edge', where, message, cure }];
  });

/** Gussets without an opening, openings without their gusset, marks off their edge, and sides that differ from their opening, or the depths of its point along a seam from each other, by more than 1.5 mm. */
export const allGussetFindings = (pattern: Pattern): Finding[] => [
  ...pattern.panels
    .filter(({ gusset }) => gusset)
    .flatMap((panel) => [...gussetFindings(pattern, panel), ...pointFindings(pattern, panel)]),
  ...pattern.panels.flatMap((panel) => slitFindings(pattern, panel)),
];

const keyOf = ({ kind, where, message }: Finding): string => [kind, where, message].join('\n');

/** As `allGussetFindings`, without what was just so before. */
export const changedGussetFindings = (before: Pattern, after: Pattern): Finding[] => {
  const old = new Set(allGussetFindings(before).map(keyOf));
  return allGussetFindings(after).filter((finding) => !old.has(keyOf(finding)));
};
