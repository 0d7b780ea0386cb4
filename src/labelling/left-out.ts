/** What of a drawing no panel takes, told with its place. */

import { pathLength } from '../geometry/arc-length.ts';
import type { Drawing, Stroke } from '../pattern/drawing.ts';
import type { Finding } from '../pattern/finding.ts';
import type { HungPanel } from './hang-drawn-panel.ts';
import { holds } from './holds.ts';
import { describePoint } from './shape.ts';
import { LONGEST_NOTCH, middleOf, touches } from './sort-strokes.ts';

/** A line on an edge that is longer than this was hardly meant for a notch, in millimetres. */
const MEANT_FOR_NOTCH = 3 * LONGEST_NOTCH;

/** Places beyond these are only counted. */
const MOST_PLACES = 4;

/** Lines on an edge that are too long for notches, each; then one word about everything that lies in no panel; `known` are told already. */
export const leftOut = (drawing: Drawing, hung: readonly HungPanel[], known: readonly Stroke[]): Finding[] => {
  const marks = new Set<Stroke>([
    ...known,
    ...hung.flatMap(({ strokes }) => [
      ...strokes.levels.map((level) => level.stroke),
      ...strokes.notches,
      ...(strokes.grain ? [strokes.grain] : []),
    ]),
  ]);
  const kept = new Set(hung.flatMap(({ strokes }) => strokes.others));
  const long = drawing.strokes.flatMap((stroke) => {
    if (marks.has(stroke) || pathLength(stroke.path) > MEANT_FOR_NOTCH) return [];
    const panel = hung.find(({ drawn }) => touches(drawn.shape.path, stroke.path));
    return panel === undefined ? [] : [{ stroke, panel: panel.name }];
  });
  const told = new Set(long.map(({ stroke }) => stroke));
  const lines = drawing.strokes.filter((stroke) => !marks.has(stroke) && !kept.has(stroke) && !told.has(stroke));
  return [
    ...long.map(({ stroke, panel }) => longNotch(stroke, panel, kept.has(stroke))),
    ...outside(
      drawing,
      lines,
      drawing.artwork.filter((art) => !hung.some((panel) => holds(panel.drawn, art.at))).length,
    ),
  ];
};

const placeOf = ({ path, id }: Stroke): string =>
  `${id === undefined ? '' : `${id} `}at ${describePoint(middleOf(path))}`;

const longNotch = (stroke: Stroke, panel: string, kept: boolean): Finding => ({
  weight: 'warning',
  kind: 'notch-too-long',
  where: `panel ${panel}`,
  message: `the line ${placeOf(stroke)} lies on the edge but is ${pathLength(stroke.path).toFixed(1)} mm long; it is ${kept ? 'kept as a plain line' : 'left out'}`,
  cure: `if it is a notch, shorten it: a notch is ${LONGEST_NOTCH} mm at most`,
});

const outside = (drawing: Drawing, lines: readonly Stroke[], others: number): Finding[] => {
  if (lines.length + others === 0) return [];
  const parts = [count(lines.length, 'line'), count(others, 'other mark')].filter((part) => part !== '');
  const places = lines.slice(0, MOST_PLACES).map(placeOf);
  if (lines.length > MOST_PLACES) places.push('...');
  const where = places.length === 0 ? '' : `: ${places.join('; ')}`;
  const message = `${parts.join(' and ')} outside the panels left out${where}`;
  return [{ weight: 'note', kind: 'artwork-left-out', where: drawing.name, message }];
};

const count = (number: number, noun: string): string =>
  number === 0 ? '' : `${number} ${noun}${number === 1 ? '' : 's'}`;
