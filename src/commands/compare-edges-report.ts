/** Which edges moved, in tables, and which did not, in a line. */

import { countOf } from '../cli/count-of.ts';
import { tableText } from '../cli/table-text.ts';
import { wrapWords } from '../cli/wrap-words.ts';
import type { Comparison, EdgeComparison, EdgeKind, PanelComparison } from '../measure/compare/comparison.ts';
import { formatLength, MM_PER_INCH } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { inWords, listed, moveCell, SLIGHT } from './compare-words.ts';

interface PanelEdge {
  readonly panel: PanelComparison;
  readonly edge: EdgeComparison;
}

/** How much of an edge moved at most, sideways or along itself. */
const sizeOf = ({ kind, apart, ends }: EdgeComparison): number =>
  Math.max(...ends.map(({ longer }) => Math.abs(longer)), kind === 'moved' ? apart : 0);

const edgesOf = ({ panels }: Comparison, isWanted: (edge: EdgeComparison) => boolean): PanelEdge[] =>
  panels.flatMap((panel) => panel.edges.filter(isWanted).map((edge) => ({ panel, edge })));

const isSlight = (edge: EdgeComparison): boolean =>
  (edge.kind === 'moved' || edge.kind === 'ends') && sizeOf(edge) < SLIGHT;

const isShown = (kind: EdgeKind) => (edge: EdgeComparison) => edge.kind === kind && !isSlight(edge);

/** `cb on back`. */
const nameOf = ({ panel, edge }: PanelEdge): string => `${edge.edge} on ${panel.panel}`;

/** Nearer to a level than this is at it, to a maker. Millimetres. */
const AT_LEVEL = 3;

/** Moves along the levels that differ by less than this are one move of the whole seam. Millimetres. */
const EVEN = 0.02;

const isEven = ({ levels }: EdgeComparison): boolean => {
  const moves = levels.flatMap(({ outwards }) => outwards ?? []);
  return moves.length > 1 && Math.min(...moves.map(Math.abs)) > EVEN && Math.max(...moves) - Math.min(...moves) < EVEN;
};

/** Where the greatest distance is: `at cb`, `at bust`, `at waist+2.4in`, as levels are typed. */
const placeWords = ({ panel, edge }: PanelEdge, units: Units): string => {
  const { near, height } = edge;
  if (isEven(edge)) return 'everywhere';
  if (near !== undefined) return `at ${near}`;
  if (height === undefined) return '';
  const level = panel.levels.find(
    (one) => one.height.before !== undefined && Math.abs(one.height.before - height) < AT_LEVEL,
  );
  if (level) return `at ${level.level}`;
  const size = Math.abs(height);
  const words = units === 'in' ? `${(size / MM_PER_INCH).toFixed(1)}in` : `${size.toFixed(0)}mm`;
  return `at waist${height < 0 ? '-' : '+'}${words}`;
};

/** More than this between a move along a level and one square to the line is seen in the table. Millimetres. */
const SEEN = 0.01;

/** A slanting line moves farther along a level than square to itself: then that is its greatest move, so that no figure of its row is greater. */
const greatest = (all: PanelEdge, units: Units): string[] => {
  const { apart, most, levels } = all.edge;
  const along = Math.abs(most) > apart + SEEN ? levels.find(({ outwards }) => outwards === most) : undefined;
  const place = along === undefined || isEven(all.edge) ? placeWords(all, units) : `at ${along.level}`;
  return [moveCell(Math.max(apart, Math.abs(most)), units).replace('+', ''), place];
};

const seamMoves = (edges: readonly PanelEdge[], units: Units): string => {
  const seams = edges.filter(({ edge: { place } }) => place === 'front' || place === 'back');
  if (seams.length === 0) return '';
  const moves = seams.flatMap(({ edge }) => edge.levels).filter(({ outwards }) => outwards !== undefined);
  const levels = [...new Set(moves.map(({ level }) => level))];
  const rows = seams.map((one) => [
    nameOf(one),
    ...levels.map((level) => moveCell(one.edge.levels.find((move) => move.level === level)?.outwards, units)),
    ...greatest(one, units),
  ]);
  const table = tableText([inWords(units), ...levels, 'at most', ''], rows);
  return `Seams that moved along each level: + outwards (larger), - inwards.\n${table}`;
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
  const table = tableText([inWords(units), 'front end', 'back end', 'at most', ''], rows);
  return `Top and bottom edges that moved: + up, - down.\n${table}`;
};

const plainMoves = (edges: readonly PanelEdge[], units: Units): string =>
  edges
    .filter(({ edge }) => edge.place === 'other')
    .map((one) =>
      `${nameOf(one)}: moved by up to ${formatLength(one.edge.apart, units)} ${placeWords(one, units)}`.trimEnd(),
    )
    .map((line) => `${line}\n`)
    .join('');

const wrapped = (text: string): string => `${wrapWords(text, 78).join('\n  ')}\n`;

/** `3.20 mm shorter at top: side on side-front and side-back`: edges that went alike share a line. */
const endLines = (edges: readonly PanelEdge[], units: Units): string => {
  const said = edges.flatMap((one) =>
    frontFirst(one.edge)
      .filter(({ longer }) => Math.abs(longer) >= SLIGHT)
      .map(({ at, longer }) => ({
        ...one,
        words: `${formatLength(Math.abs(longer), units)} ${longer < 0 ? 'shorter' : 'longer'} at ${at}`,
      })),
  );
  const lines = [...new Set(said.map(({ words }) => words))].map((words) => {
    const alike = said.filter((one) => one.words === words);
    const names = [...new Set(alike.map(({ edge }) => edge.edge))].map((name) => {
      const panels = alike.filter(({ edge }) => edge.edge === name).map(({ panel }) => panel.panel);
      return `${name} on ${listed(panels)}`;
    });
    return wrapped(`  ${words}: ${names.join('; ')}`);
  });
  return lines.length === 0 ? '' : `Along the same line, but with other ends:\n${lines.join('')}`;
};

/** `Unchanged: front; back (top, bottom).`: whole panels by their names alone. */
const listLine = (says: string, { panels }: Comparison, isWanted: (edge: EdgeComparison) => boolean): string => {
  const parts = panels.flatMap(({ panel, edges }) => {
    const alike = edges.filter(isWanted).map(({ edge }) => edge);
    if (alike.length === 0) return [];
    return [alike.length === edges.length ? panel : `${panel} (${alike.join(', ')})`];
  });
  if (parts.length === 0) return '';
  const all = panels.every(({ edges }) => edges.every(isWanted));
  return wrapped(`${says}: ${all ? `every edge of ${countOf(panels.length, 'panel')}` : parts.join('; ')}.`);
};

/** What is said of edges, part by part; an empty part has nothing to say. */
export const edgeParts = (found: Comparison, units: Units): string[] => {
  const moved = edgesOf(found, isShown('moved'));
  return [
    seamMoves(moved, units),
    edgeMoves(moved, units),
    plainMoves(moved, units),
    endLines(edgesOf(found, isShown('ends')), units),
    listLine(`Moved by less than ${SLIGHT} mm`, found, isSlight) +
      listLine('Drawn anew, within 0.01 mm of before', found, ({ kind }) => kind === 'redrawn') +
      listLine('Unchanged', found, ({ kind }) => kind === 'same'),
  ];
};
