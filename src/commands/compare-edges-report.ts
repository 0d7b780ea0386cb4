/** Which edges moved, in tables, and which did not, in a line. */

import { signedFigure } from '../cli/figure.ts';
import { tableText } from '../cli/table-text.ts';
import { wrapWords } from '../cli/wrap-words.ts';
import {
  UNCHANGED,
  type Comparison,
  type EdgeComparison,
  type EdgeKind,
  type PanelComparison,
} from '../measure/compare/comparison.ts';
import { formatLength, MM_PER_INCH } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';

interface PanelEdge {
  readonly panel: PanelComparison;
  readonly edge: EdgeComparison;
}

const edgesOf = ({ panels }: Comparison, ...kinds: readonly EdgeKind[]): PanelEdge[] =>
  panels.flatMap((panel) => panel.edges.filter(({ kind }) => kinds.includes(kind)).map((edge) => ({ panel, edge })));

/** A move with its sign; nothing that would show is a bare 0. */
export const moveCell = (mm: number | undefined, units: Units): string => {
  if (mm === undefined) return '-';
  const text = signedFigure(mm, units);
  return /[1-9]/.test(text) ? text : '0';
};

/** `cb on back`. */
const nameOf = ({ panel, edge }: PanelEdge): string => `${edge.edge} on ${panel.panel}`;

const unitWord = (units: Units): string => (units === 'in' ? 'inches' : 'mm');

/** Nearer to a level than this is at it, to a maker. Millimetres. */
const AT_LEVEL = 3;

/** Where the greatest distance is: `at cb`, `at bust`, `2.4 in above waist`. */
export const placeWords = ({ panel, edge }: PanelEdge, units: Units): string => {
  const { near, height } = edge;
  if (near !== undefined) return `at ${near}`;
  if (height === undefined) return '';
  const level = panel.levels.find(
    (one) => one.height.before !== undefined && Math.abs(one.height.before - height) < AT_LEVEL,
  );
  if (level) return `at ${level.level}`;
  const size = Math.abs(height);
  const words = units === 'in' ? `${(size / MM_PER_INCH).toFixed(1)} in` : `${size.toFixed(0)} mm`;
  return `${words} ${height < 0 ? 'below' : 'above'} waist`;
};

const greatest = (all: PanelEdge, units: Units): string[] => [
  moveCell(all.edge.apart, units).replace('+', ''),
  placeWords(all, units),
];

const seamMoves = (edges: readonly PanelEdge[], units: Units): string => {
  const seams = edges.filter(({ edge: { place } }) => place === 'front' || place === 'back');
  if (seams.length === 0) return '';
  const levels = [
    ...new Set(
      seams.flatMap(({ edge }) =>
        edge.levels.filter(({ outwards }) => outwards !== undefined).map(({ level }) => level),
      ),
    ),
  ];
  const rows = seams.map((one) => [
    nameOf(one),
    ...levels.map((level) => moveCell(one.edge.levels.find((move) => move.level === level)?.outwards, units)),
    ...greatest(one, units),
  ]);
  return `Seams that moved along each level: + outwards (larger), - inwards.\n${tableText([`in ${unitWord(units)}`, ...levels, 'at most', ''], rows)}`;
};

/** The end towards the front first: a bottom edge runs the other way. */
const frontFirst = ({ place, ends }: EdgeComparison): EdgeComparison['ends'] =>
  place === 'bottom' ? ends.toReversed() : ends;

const edgeMoves = (edges: readonly PanelEdge[], units: Units): string => {
  const others = edges.filter(({ edge: { place } }) => place === 'top' || place === 'bottom');
  if (others.length === 0) return '';
  const rows = others.map((one) => [
    nameOf(one),
    ...frontFirst(one.edge).map(({ up }) => moveCell(up, units)),
    ...greatest(one, units),
  ]);
  return `Top and bottom edges that moved: + up, - down.\n${tableText([`in ${unitWord(units)}`, 'front end', 'back end', 'at most', ''], rows)}`;
};

const plainMoves = (edges: readonly PanelEdge[], units: Units): string =>
  edges
    .filter(({ edge }) => edge.place === 'other')
    .map((one) =>
      `${nameOf(one)}: moved by up to ${formatLength(one.edge.apart, units)} ${placeWords(one, units)}`.trimEnd(),
    )
    .map((line) => `${line}\n`)
    .join('');

const endLines = (edges: readonly PanelEdge[], units: Units): string => {
  const lines = edges.map((one) => {
    const ends = frontFirst(one.edge)
      .filter(({ longer }) => Math.abs(longer) > UNCHANGED)
      .map(
        ({ at, longer }) => `${formatLength(Math.abs(longer), units)} ${longer < 0 ? 'shorter' : 'longer'} at ${at}`,
      );
    return `  ${nameOf(one)}: ${ends.join(', ')}\n`;
  });
  return lines.length === 0 ? '' : `Along the same line, with other ends:\n${lines.join('')}`;
};

/** `Unchanged: front; back: top, bottom.`: whole panels by their names alone. */
const listLine = (says: string, { panels }: Comparison, kind: EdgeKind): string => {
  const parts = panels.flatMap(({ panel, edges }) => {
    const alike = edges.filter((edge) => edge.kind === kind).map(({ edge }) => edge);
    if (alike.length === 0) return [];
    return [alike.length === edges.length ? panel : `${panel} (${alike.join(', ')})`];
  });
  return parts.length === 0 ? '' : `${wrapWords(`${says}: ${parts.join('; ')}.`, 78).join('\n  ')}\n`;
};

/** What is said of edges, part by part; an empty part has nothing to say. */
export const edgeParts = (found: Comparison, units: Units): string[] => {
  const moved = edgesOf(found, 'moved');
  return [
    seamMoves(moved, units),
    edgeMoves(moved, units),
    plainMoves(moved, units),
    endLines(edgesOf(found, 'ends'), units),
    listLine('Drawn anew, but within 0.01 mm of before', found, 'redrawn') + listLine('Unchanged', found, 'same'),
  ];
};
