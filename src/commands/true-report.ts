import type { TrueChange, TruedSeam } from '../alterations/true-seams.ts';
import type { Report } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import { signedFigure } from '../cli/figure.ts';
import { tableText } from '../cli/table-text.ts';
import { formatLength, MM_PER_INCH, SIXTY_FOURTHS } from '../pattern/format-length.ts';
import { degreesOf } from '../geometry/degrees.ts';
import { bendWords, placeWords } from '../pattern/meeting-findings.ts';
import { sewnSeams } from '../pattern/look-up.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { CORNER_EDGES } from '../pattern/seam-walk.ts';
import { edgesLines, shapeJson } from './shape-report.ts';

/** Less than this nobody draws or cuts: 1/64 in. Such changes are only counted. */
const TO_TELL = MM_PER_INCH / SIXTY_FOURTHS;

/**
 * What truing changed, in a maker's words: each edge at its top and bottom, notches, angles; the largest change last. `asked` are the
 * seams that were named, none for all.
 */
export const trueReport = (change: TrueChange, before: Pattern, asked: readonly string[], units: Units): Report => ({
  text: () => textOf(change, units),
  last: () => lastLine(change, before, asked, units),
  json: () => jsonOf(change),
});

const textOf = ({ seams, edges, smoothed }: TrueChange, units: Units): string => {
  const grown = seams.flatMap(({ seam, edges: both }) =>
    both
      .filter(({ growth }) => CORNER_EDGES.some((corner) => isTold(growth[corner])))
      .map(({ panel, growth }) => [
        `${seam} on ${panel}`,
        ...CORNER_EDGES.map((corner) => signedFigure(growth[corner], units)),
      ]),
  );
  const head = [`in ${units === 'in' ? 'inches' : 'mm'}`, 'grows at the top', 'at the bottom'];
  const told = edges.filter(({ before, after }) => isTold(after - before));
  const moves = seams.flatMap((seam) => seam.edges.flatMap(({ notches }) => notches));
  const small = [
    smallLine(edges.length - told.length, edges.length, 'edge', 'changes', 'change', units),
    smallLine(moves.filter((move) => !isTold(wayOf(move))).length, moves.length, 'notch', 'moves', 'move', units),
  ];
  const parts = [
    grown.length === 0 ? '' : tableText(head, grown),
    ...[
      edgesLines(told, units),
      seams.flatMap((seam) => notchLines(seam, units)),
      small.filter((line) => line !== ''),
      [...seams.flatMap(bendLines), ...smoothedLines(smoothed, units)],
    ].map((lines) => lines.map((line) => `${line}\n`).join('')),
  ];
  return parts.filter((part) => part !== '').join('\n');
};

const isTold = (change: number): boolean => Math.abs(change) >= TO_TELL;

const wayOf = ({ from, to }: { readonly from: number; readonly to: number }): number => to - from;

/** `3 more edges change by less than 0.40 mm`; nothing where there are none. */
const smallLine = (count: number, all: number, thing: string, does: string, doing: string, units: Units): string => {
  if (count === 0) return '';
  const things = count === 1 ? thing : thing === 'notch' ? 'notches' : `${thing}s`;
  const more = count < all ? 'more ' : '';
  return `${count} ${more}${things} ${count === 1 ? does : doing} by less than ${formatLength(TO_TELL, units)}`;
};

const notchLines = ({ seam, from, edges }: TruedSeam, units: Units): string[] =>
  edges.flatMap(({ panel, notches }) =>
    notches
      .filter((moved) => isTold(wayOf(moved)))
      .map((moved) => {
        const by = wayOf(moved);
        const place = placeWords({ notch: moved.notch, up: moved.from }, from, units);
        return `${seam}: the notch ${place} on ${panel} moves ${formatLength(Math.abs(by), units)} ${by > 0 ? 'up' : 'down'}`;
      }),
  );

const bendLines = ({ seam, bends }: TruedSeam): string[] =>
  bends.map(({ corner, before, after }) => {
    const now = Math.abs(degreesOf(after)) < 0.05 ? 'now smooth' : `now ${bendWords(after)}`;
    return `${seam}, ${corner}: ${bendWords(before)}, ${now}`;
  });

/** `front, top: the line moves at most 1.49 mm`: what smoothing took or gave, which may matter over a bust. */
const smoothedLines = (smoothed: TrueChange['smoothed'], units: Units): string[] =>
  smoothed
    .filter(({ most }) => isTold(most))
    .map(({ panel, edge, most }) => `${panel}, ${edge}: the line moves at most ${formatLength(most, units)}`);

/** `cb has one edge, so there is nothing to true along it.`, where that is all that was asked for. */
const aloneLine = (pattern: Pattern, asked: readonly string[]): string | undefined => {
  const alone = asked.filter((name) => sewnSeams(pattern).every((seam) => seam.name !== name || seam.edges.length < 2));
  if (alone.length === 0 || alone.length < asked.length) return undefined;
  const [have, them] = alone.length === 1 ? ['has', 'it'] : ['have', 'them'];
  return `${alone.join(' and ')} ${have} one edge${alone.length === 1 ? '' : ' each'}, so there is nothing to true along ${them}.`;
};

const lastLine = ({ seams }: TrueChange, before: Pattern, asked: readonly string[], units: Units): string => {
  if (seams.length === 0 && asked.length > 0)
    return aloneLine(before, asked) ?? `Nothing to true along ${asked.join(', ')}.`;
  if (seams.length === 0) return 'Nothing to true: every seam already matches.';
  const done = `Trued ${countOf(seams.length, 'seam')}`;
  const changes = seams.flatMap(({ seam, edges }) =>
    edges.flatMap(({ panel, growth }) =>
      CORNER_EDGES.map((corner) => ({ by: Math.abs(growth[corner]), place: `the ${corner} of ${seam} on ${panel}` })),
    ),
  );
  const largest = changes.reduce((best, each) => (each.by > best.by ? each : best));
  if (largest.by > 0)
    return `${done}; the largest change of length is ${formatLength(largest.by, units)} at ${largest.place}.`;
  const moved = seams.flatMap(({ edges }) => edges.flatMap(({ notches }) => notches)).length;
  const smoothed = seams.flatMap(({ bends }) => bends).length;
  const what = [
    moved === 0 ? '' : moved === 1 ? 'one notch moved' : `${moved} notches moved`,
    smoothed === 0 ? '' : smoothed === 1 ? 'one line made smooth' : `${smoothed} lines made smooth`,
  ];
  return `${done}: ${what.filter((text) => text !== '').join(', ')}; every length stays.`;
};

const jsonOf = ({ seams, smoothed: _smoothed, ...shape }: TrueChange): Record<string, unknown> => ({
  seams: seams.map(({ seam, from, edges, bends }) => ({
    seam,
    matched_at: from,
    edges: edges.map(({ panel, growth, notches }) => ({
      panel,
      top_mm: growth.top,
      bottom_mm: growth.bottom,
      notches: notches.map((notch) => ({ from_mm: notch.from, to_mm: notch.to })),
    })),
    bends: bends.map(({ corner, before, after }) => ({
      edge: corner,
      before_degrees: degreesOf(before),
      after_degrees: degreesOf(after),
    })),
  })),
  ...shapeJson(shape),
});
