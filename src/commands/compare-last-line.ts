import { changeOf, isChanged, type Comparison, type EdgeComparison } from '../measure/compare/comparison.ts';
import { formatLength, formatSigned } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { markLines } from './compare-marks-report.ts';

/** Edges that moved by nearly the same are told together. Millimetres. */
const ALIKE = 0.05;

interface Moved {
  readonly panel: string;
  readonly edge: EdgeComparison;
}

/** What matters most about two versions: the greatest move, and what became of the girths. */
export const compareLastLine = (found: Comparison, units: Units): string => {
  if (!found.differs) return `The same: no line lies more than 0.01 mm from where it lay, and nothing else changed.`;
  const girths = girthWords(found, units);
  return `They differ: ${[mostWords(found, units), ...(girths === '' ? [] : [girths])].join('; ')}.`;
};

const mostWords = (found: Comparison, units: Units): string => {
  const moved: Moved[] = found.panels.flatMap(({ panel, edges }) =>
    edges.filter(({ kind }) => kind === 'moved').map((edge) => ({ panel, edge })),
  );
  const most = moved.reduce<Moved | undefined>(
    (best, one) => (best === undefined || Math.abs(one.edge.most) > Math.abs(best.edge.most) ? one : best),
    undefined,
  );
  if (most === undefined) return otherWords(found, units);
  const { edge } = most;
  const alike = moved.filter((one) => one.edge.edge === edge.edge && Math.abs(one.edge.most - edge.most) < ALIKE);
  const size = formatLength(Math.abs(edge.most), units);
  const panels = alike.map(({ panel }) => panel).join(' and ');
  return `${edge.edge} on ${panels} ${verbOf(edge)} by up to ${size}`;
};

/** Which way an edge went, unless it went both ways. */
const verbOf = ({ place, most, levels }: EdgeComparison): string => {
  if (place === 'other') return 'moves';
  if (place === 'top' || place === 'bottom') return most < 0 ? 'goes down' : 'comes up';
  const other = levels.some(
    ({ outwards = 0 }) => Math.sign(outwards) === -Math.sign(most) && Math.abs(outwards) > Math.abs(most) / 4,
  );
  if (other) return 'moves in and out';
  return most < 0 ? 'comes in' : 'goes out';
};

/** No line moved: then an edge along itself, or the first of what else changed. */
const otherWords = (found: Comparison, units: Units): string => {
  const [line] = markLines(found, units);
  if (line !== undefined) return line;
  const ends = found.panels.flatMap(({ panel, edges }) =>
    edges.flatMap(({ edge, kind, ends: both }) =>
      kind === 'ends' ? both.map((end) => ({ panel, edge, ...end })) : [],
    ),
  );
  const { panel, edge, longer, at } = ends.reduce((best, one) =>
    Math.abs(one.longer) > Math.abs(best.longer) ? one : best,
  );
  return `${edge} on ${panel} is ${formatLength(Math.abs(longer), units)} ${longer < 0 ? 'shorter' : 'longer'} at ${at}`;
};

/** The girth that changed most, and the waist. */
const girthWords = ({ girths, half, line }: Comparison, units: Units): string => {
  const changed = girths.filter((girth) => isChanged(girth) && changeOf(girth) !== undefined);
  const round =
    line === 'cutting' ? 'round all cutting lines' : half === undefined ? 'round the body' : `round the ${half} half`;
  if (changed.length === 0) return girths.length === 0 ? '' : `nothing changes ${round}`;
  const most = changed.reduce((best, girth) => (Math.abs(changeOf(girth)!) > Math.abs(changeOf(best)!) ? girth : best));
  const waist = girths.find(({ level }) => level === 'waist');
  const told = waist === undefined || waist === most ? [most] : [most, waist];
  return `${round} ${told.map((girth) => `${girth.level} ${formatSigned(changeOf(girth) ?? 0, units)}`).join(', ')}`;
};
