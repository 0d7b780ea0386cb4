import type { EdgeRedrawn, RaisedSeam } from '../alterations/redraw-edge.ts';
import type { Report } from '../cli/command.ts';
import { figure, signedFigure } from '../cli/figure.ts';
import { tableText } from '../cli/table-text.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { girthTable, roundWords, shapeJson } from './shape-report.ts';

/** What redrawing a top or bottom line did: seam by seam with their lengths, the line round the body, and where it moved most last. */
export const redrawReport = (change: EdgeRedrawn, units: Units): Report => ({
  text: () => textOf(change, units),
  last: () => lastLine(change, units),
  json: () => jsonOf(change),
});

const capital = (text: string): string => `${text[0]!.toUpperCase()}${text.slice(1)}`;

/** Whether a length shows in a report at all. */
const shows = (mm: number, units: Units): boolean => /[1-9]/.test(formatLength(mm, units));

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

/** Edges of a seam that differ by no more are told as one: half of what a maker can see on a ruler. */
const ALIKE = 0.1;

interface Row {
  readonly name: string;
  readonly before: number;
  readonly after: number;
}

const rowsOf = ({ seam, side, edges }: RaisedSeam): Row[] => {
  const [one, ...others] = edges;
  const name = side === undefined ? seam : `${seam}, ${side}`;
  if (one && others.every(({ before }) => Math.abs(before - one.before) <= ALIKE)) return [{ ...one, name }];
  return edges.map((edge) => ({ ...edge, name: `${seam} on ${edge.panel}` }));
};

const textOf = (change: EdgeRedrawn, units: Units): string => {
  const { edge, seams, line } = change;
  const table = tableText(
    [`in ${units === 'in' ? 'inches' : 'mm'}`, `${edge} moves`, 'seam before', 'after'],
    seams.flatMap((seam) =>
      rowsOf(seam).map(({ name, before, after }) => [
        name,
        signedFigure(seam.raised, units),
        figure(before, units),
        figure(after, units),
      ]),
    ),
  );
  const girths = change.girth.filter(({ before, after }) => shows(after - before, units));
  const held = heldEnds(change.seams, units);
  const lines = [
    `${capital(edge)} line ${roundWords(line.side)} ${formatLength(line.before, units)}, now ${formatLength(line.after, units)}`,
    ...(held.length === 0
      ? []
      : [`Nothing moves at ${listed(held)}: no --at names ${held.length === 1 ? 'it' : 'them'}.`]),
  ];
  return `${table}\n${girths.length === 0 ? '' : `${girthTable(girths, units)}\n`}${lines.join('\n')}\n`;
};

/** The ends of the line, on each side of the body that is drawn, that stay only because nothing was said of them. */
const heldEnds = (seams: readonly RaisedSeam[], units: Units): string[] => {
  const sides = [...new Set(seams.map(({ side }) => side))];
  const held = sides.flatMap((side) => {
    const own = seams.filter((seam) => seam.side === side);
    return [own, own.toReversed()].flatMap((run) => {
      const first = run.find(({ named }) => named);
      return first && first !== run[0] && shows(first.raised, units) ? [run[0]!.seam] : [];
    });
  });
  return [...new Set(held)];
};

/** Seams of one amount together: `raised 4.00 mm at side, 10.00 mm at blade, lowered 6.00 mm at cb`. */
const moves = (seams: readonly RaisedSeam[], units: Units): string[] => {
  const names = new Map<string, Set<string>>();
  const ways = new Map<string, string>();
  for (const { seam, raised } of seams) {
    const text = formatLength(raised, units);
    names.set(text, (names.get(text) ?? new Set()).add(seam));
    ways.set(text, raised > 0 ? 'raised' : 'lowered');
  }
  return [...names].map(([text, at], index) => {
    const way = ways.get(text)!;
    const said = index > 0 && way === [...ways.values()][index - 1];
    return `${said ? '' : `${way} `}${text.replaceAll('-', '')} at ${listed([...at])}`;
  });
};

/** `Top lowered 12.70 mm at cb, blended to nothing at side.` */
const lastLine = ({ edge, seams }: EdgeRedrawn, units: Units): string => {
  const still = ({ raised }: RaisedSeam): boolean => !shows(raised, units);
  const named = seams.filter((seam) => seam.named && !still(seam));
  if (named.length === 0) return `${capital(edge)} moved by less than this report shows.`;
  const beside = seams.filter(
    (seam, index) =>
      still(seam) &&
      [seams[index - 1], seams[index + 1]].some((other) => other && other.side === seam.side && !still(other)),
  );
  const nothing = [...new Set(beside.map(({ seam }) => seam))];
  const blended = nothing.length === 0 ? [] : [`blended to nothing at ${listed(nothing)}`];
  return `${capital(edge)} ${[...moves(named, units), ...blended].join(', ')}.`;
};

const lineKey = ({ line: { side } }: EdgeRedrawn): string =>
  side === undefined ? 'line_round_body' : `line_round_${side}_half`;

const jsonOf = (change: EdgeRedrawn): Record<string, unknown> => ({
  edge: change.edge,
  seams: change.seams.map(({ seam, side, raised, named, edges }) => ({
    seam,
    ...(side === undefined ? {} : { side }),
    raised_mm: raised,
    named,
    edges: edges.map(({ panel, before, after }) => ({ panel, before_mm: before, after_mm: after })),
  })),
  [`${lineKey(change)}_before_mm`]: change.line.before,
  [`${lineKey(change)}_after_mm`]: change.line.after,
  ...shapeJson({ girth: change.girth, edges: change.edges }),
});
