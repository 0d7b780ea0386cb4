/** What changed besides the edges, a line each: gussets, levels, grain, bones, openings, allowances. */

import { degreesOf } from '../geometry/degrees.ts';
import {
  changeOf,
  isChanged,
  UNCHANGED,
  type Both,
  type Comparison,
  type PanelComparison,
} from '../measure/compare/comparison.ts';
import { isTurned } from '../measure/compare-patterns.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { listed } from './compare-words.ts';

/** A change of height in words; undefined where there is none. */
const upWords = (height: Both, units: Units): string | undefined => {
  if (!isChanged(height)) return undefined;
  const up = changeOf(height);
  if (up === undefined) return height.before === undefined ? 'only after' : 'only before';
  return `${formatLength(Math.abs(up), units)} ${up < 0 ? 'down' : 'up'}`;
};

/** `waist: 9.53 mm up on every panel`; panels that a level moved on alike share a line. */
export const levelLines = ({ panels }: Comparison, units: Units): string[] =>
  [...new Set(panels.flatMap(({ levels }) => levels.map(({ level }) => level)))].flatMap((name) => {
    const having = panels.filter(({ levels }) => levels.some(({ level }) => level === name));
    const moves = having.map(({ panel, levels }) => ({
      panel,
      words: upWords(levels.find(({ level }) => level === name)!.height, units),
    }));
    const kinds = [...new Set(moves.map(({ words }) => words))].filter((words) => words !== undefined);
    return kinds.map((words) => {
      const on = moves.filter((move) => move.words === words).map(({ panel }) => panel);
      return `level ${name}: ${words} on ${on.length === having.length ? 'every panel' : on.join(', ')}`;
    });
  });

const leanWords = (lean: number | undefined): string =>
  lean === undefined ? 'not drawn' : `${degreesOf(lean).toFixed(1)} degrees`;

const grainLines = (panel: PanelComparison): string[] =>
  isTurned(panel)
    ? [
        `grain of ${panel.panel}: leans ${leanWords(panel.grain.before)}, now ${leanWords(panel.grain.after)} (+ to the right)`,
      ]
    : [];

const boneLines = ({ panel, bones, bonesApart }: PanelComparison, units: Units): string[] => {
  if (isChanged(bones)) return [`bones of ${panel}: ${bones.before}, now ${bones.after}`];
  return bonesApart > UNCHANGED ? [`bones of ${panel}: moved by up to ${formatLength(bonesApart, units)}`] : [];
};

const slitLines = ({ panel, slits }: PanelComparison, units: Units): string[] =>
  slits.flatMap(({ gusset, edge, height, length, apart }) => {
    const of = `opening for ${gusset} ${edge === undefined ? 'in' : `on ${edge} of`} ${panel}`;
    const said = (value: number | undefined): string => (value === undefined ? 'none' : formatLength(value, units));
    if (length.before === undefined || length.after === undefined) {
      return isChanged(length)
        ? [
            `${of}: ${length.before === undefined ? 'only after' : 'only before'}, ${said(length.after ?? length.before)} long`,
          ]
        : [];
    }
    return [
      ...(isChanged(height) || apart > UNCHANGED ? [`${of}: its point moved ${formatLength(apart, units)}`] : []),
      ...(isChanged(length) ? [`${of}: ${said(length.before)} long, now ${said(length.after)}`] : []),
    ];
  });

/** `allowance of front and back, every edge: none, now 12.00 mm`: panels and edges that changed alike share a line. */
const allowanceLines = ({ panels }: Comparison, units: Units): string[] => {
  const said = (width: number | undefined): string => (width === undefined ? 'none' : formatLength(width, units));
  const changes = panels.flatMap(({ panel, edges }) => {
    const changed = edges
      .filter(({ allowance }) => isChanged(allowance))
      .map(({ edge, allowance: { before, after } }) => ({ edge, words: `${said(before)}, now ${said(after)}` }));
    return [...new Set(changed.map(({ words }) => words))].map((words) => {
      const on = changed.filter((one) => one.words === words).map(({ edge }) => edge);
      return { panel, words: `${on.length === edges.length ? 'every edge' : on.join(', ')}: ${words}` };
    });
  });
  const ends = panels.flatMap(({ panel, edges }) =>
    edges
      .filter(({ corners }) => corners.before !== corners.after)
      .map(({ edge, corners: { before = 'mitre', after = 'mitre' } }) => ({
        panel,
        words: `ends of ${edge}: ${before}, now ${after}`,
      })),
  );
  const all = [...changes, ...ends];
  return [...new Set(all.map(({ words }) => words))].map((words) => {
    const on = all.filter((one) => one.words === words).map(({ panel }) => panel);
    return `allowance of ${listed(on)}, ${words}`;
  });
};

/** One line for each thing that changed, without its newline. */
export const markLines = (found: Comparison, units: Units): string[] => [
  ...found.gussets.onlyAfter.map((name) => `gusset ${name}: only after`),
  ...found.gussets.onlyBefore.map((name) => `gusset ${name}: only before`),
  ...levelLines(found, units),
  ...found.panels.flatMap((panel) => [...grainLines(panel), ...boneLines(panel, units), ...slitLines(panel, units)]),
  ...allowanceLines(found, units),
];
