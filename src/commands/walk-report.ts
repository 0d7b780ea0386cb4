import type { Report } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import { figure, signedFigure } from '../cli/figure.ts';
import { tableText } from '../cli/table-text.ts';
import type { WalkReport } from '../measure/walk.ts';
import type { Finding } from '../pattern/finding.ts';
import { formatLength } from '../pattern/format-length.ts';
import { seamWords } from '../pattern/look-up.ts';
import { degreesOf } from '../geometry/degrees.ts';
import { bendWords, placeWords } from '../pattern/meeting-findings.ts';
import type { Units } from '../pattern/pattern.ts';
import { differenceAlong, differingParts, partsOf, type SeamPart, type SeamWalk } from '../pattern/seam-walk.ts';

/** What walking the seams found, in a maker's words: lengths, then notches, then angles, and what is to true last. `asked` are the seams that were named, none for all. */
export const walkReport = (walked: WalkReport, asked: readonly string[], within: number, units: Units): Report => ({
  text: () => textOf(walked, within, units),
  last: () => lastLine(walked, asked, within, units),
  json: () => jsonOf(walked, within),
});

const HEADS: Readonly<Record<SeamPart, string>> = { above: 'above the waist', below: 'below', whole: 'whole seam' };

/** Three lines a seam: each edge, then how much longer the first is than the second. */
const seamRows = (walk: SeamWalk, parts: readonly SeamPart[], units: Units): string[][] => {
  const compared = partsOf(walk);
  const cells = (value: (part: SeamPart) => string): string[] =>
    parts.map((part) => (part === 'whole' || compared.includes(part) ? value(part) : ''));
  const name = seamWords(walk.seam);
  return [
    ...walk.edges.map((edge) => [`${name} on ${edge.panel.name}`, ...cells((part) => figure(edge[part]!, units))]),
    ['  difference', ...cells((part) => signedFigure(differenceAlong(walk, part), units))],
  ];
};

/** The whole seam has a column only where it is what was compared, or where small differences add up in it. */
const lengthsTable = (walks: readonly SeamWalk[], within: number, units: Units): string => {
  const parts = new Set(walks.flatMap((walk) => [...partsOf(walk), ...differingParts(walk, within)]));
  const columns = (['above', 'below', 'whole'] as const).filter((part) => parts.has(part));
  return tableText(
    [`in ${units === 'in' ? 'inches' : 'mm'}`, ...columns.map((part) => HEADS[part])],
    walks.flatMap((walk) => seamRows(walk, columns, units)),
  );
};

const textOf = ({ walks, alone, lengths, notches, bends, notes }: WalkReport, within: number, units: Units): string => {
  const table = walks.length === 0 ? [] : [lengthsTable(walks, within, units)];
  const across = walks.flatMap((walk) =>
    walk.corners.map((corner) => `${seamWords(walk.seam)}, ${corner}: ${anglesWords(walk, corner)}\n`),
  );
  const met = walks.flatMap((walk) => meetingLine(walk, units));
  const told = [...lengths, ...notches, ...bends, ...notes].map(({ where, message }) => `${where}: ${message}\n`);
  const lone = alone.length === 0 ? [] : [`Of one edge, so nothing to walk: ${alone.join('; ')}.\n`];
  return [...table, met.join(''), across.join(''), told.join(''), ...lone].filter((part) => part !== '').join('\n');
};

const anglesWords = ({ edges, excess }: SeamWalk, corner: 'top' | 'bottom'): string => {
  const [one, other] = edges.map(({ angles }) => degreesOf(angles[corner]));
  const sum = `${one!.toFixed(1)} + ${other!.toFixed(1)} = ${(one! + other!).toFixed(1)} degrees`;
  return Math.abs(degreesOf(excess[corner])) < 0.05 ? sum : `${sum}, ${bendWords(excess[corner])}`;
};

const meetingLine = ({ seam, from, edges, pairing }: SeamWalk, units: Units): string[] =>
  pairing.pairs.map(([a, b]) => {
    const [one, other] = [edges[0].notches[a]!, edges[1].notches[b]!];
    const apart = formatLength(Math.abs(one.up - other.up), units);
    return `${seamWords(seam)}, notch ${placeWords(one, from, units)}: ${/[1-9]/.test(apart) ? `${apart} apart` : 'meets'}\n`;
  });

const counted = ({ length }: readonly Finding[], one: string, more: string): string =>
  length === 0 ? '' : `${length} ${length === 1 ? one : more}`;

const lastLine = (
  { walks, lengths, notches, bends }: WalkReport,
  asked: readonly string[],
  within: number,
  units: Units,
): string => {
  if (walks.length === 0) return `${asked.length === 0 ? 'No seam' : 'None of these seams'} has two edges to walk.`;
  const kinds = [
    counted(lengths, 'length', 'lengths'),
    counted(notches, 'pair of notches', 'pairs of notches'),
    counted(bends, 'peak or dip', 'peaks or dips'),
  ].filter((text) => text !== '');
  const all = lengths.length + notches.length + bends.length;
  if (all === 0)
    return `${asked.length === 0 ? 'Every seam' : asked.join(', ')} ${asked.length > 1 ? 'match' : 'matches'} within ${formatLength(within, units)}.`;
  return `${countOf(all, 'thing')} to true: ${kinds.join(', ')}.`;
};

const jsonOf = ({ walks, alone, lengths, notches, bends, notes }: WalkReport, within: number) => ({
  tolerance_mm: within,
  matches: lengths.length + notches.length + bends.length === 0,
  seams: walks.map((walk) => ({
    seam: walk.seam.name,
    ...(walk.seam.side === undefined ? {} : { side: walk.seam.side }),
    matched_at: walk.from,
    edges: walk.edges.map(({ panel, whole, above, below, angles, notches: placed }) => ({
      panel: panel.name,
      ...(above === undefined ? {} : { above_mm: above, below_mm: below }),
      whole_mm: whole,
      top_degrees: degreesOf(angles.top),
      bottom_degrees: degreesOf(angles.bottom),
      notches_mm: placed.map(({ up }) => up),
    })),
    differences: partsOf(walk).map((part) => ({ part, by_mm: differenceAlong(walk, part) })),
    notches: walk.pairing.pairs.map(([a, b]) => {
      const [one, other] = [walk.edges[0].notches[a]!.up, walk.edges[1].notches[b]!.up];
      return { one_mm: one, other_mm: other, apart_mm: Math.abs(one - other) };
    }),
    ...Object.fromEntries(
      walk.corners.map((corner) => [`${corner}_sum_degrees`, degreesOf(walk.excess[corner]) + 180]),
    ),
  })),
  alone,
  findings: [...lengths, ...notches, ...bends, ...notes],
});
