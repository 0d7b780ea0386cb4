import { degreesOf } from '../geometry/degrees.ts';
import type { GussetChange, SetGusset } from '../alterations/gusset.ts';
import type { GussetWanted } from '../alterations/gusset-options.ts';
import type { Report } from '../cli/command.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { girthTable, shapeJson } from './shape-report.ts';

/** How the width was found, for the report. */
type Asked = GussetWanted & { readonly measured?: readonly [number, number] };

/** What setting in a gusset did, in a maker's words: the girths, the gusset, where to reinforce, and what it adds at the bottom last. */
export const gussetReport = (change: GussetChange, asked: Asked, units: Units): Report => ({
  text: () => `${girthTable(change.girth, units)}\n${linesOf(change, asked, units).join('\n')}\n`,
  last: () => wholeLine(change, asked, units),
  json: () => jsonOf(change, asked),
});

const linesOf = (change: GussetChange, asked: Asked, units: Units): string[] => [
  ...change.gussets
    .filter(({ replaced }) => replaced)
    .map(({ name }) => `${name}: the one that was there before is taken out`),
  ...change.gussets.map((gusset) => gussetLine(gusset, change.timesRound, units)),
  ...(asked.measured ? [measuredLine(asked.measured, asked.width, units)] : []),
  ...change.gussets.map((gusset) => pointLine(gusset, asked, units)),
  ...(asked.place.kind === 'slit'
    ? ['a slit has no allowance of its own: full on the gusset, on the slit tapering to nothing at the point']
    : []),
];

/** `side-gusset: front side 120.00 mm, back side 120.00 mm, base 60.00 mm, 28.96 degrees at the apex; ...` */
const gussetLine = ({ name, front, back, width, apexAngle }: SetGusset, times: 1 | 2, units: Units): string => {
  const [one, other] = [front, back].map((mm) => formatLength(mm, units));
  const sides = one === other ? `sides ${one}` : `front side ${one}, back side ${other}`;
  const cut = times === 2 ? '; one on each half, two round the body' : '';
  return `${name}: ${sides}, base ${formatLength(width, units)} from corner to corner, ${degreesOf(apexAngle).toFixed(2)} degrees at the apex${cut}`;
};

const measuredLine = ([one, other]: readonly [number, number], mean: number, units: Units): string => {
  const [a, b, width] = [one, other, mean].map((mm) => formatLength(mm, units));
  return `measured ${a} and ${b}: the base is their mean, ${width}`;
};

/** The size of the patch: S. Cowan, a sewing-conference handout, sets 1 1/2 x 3 in. */
const PATCH = { mm: 'about 38 x 76 mm', in: '1 1/2 x 3 in' } as const;

const pointLine = ({ name, points }: SetGusset, { place }: Asked, units: Units): string => {
  const words = [...new Set(points.map(({ belowWaist }) => heightWords(belowWaist, units)))];
  const where = words.length === 1 ? words[0]! : points.map((p, at) => `on ${p.panel} ${words[at]!}`).join(', ');
  const what = place.kind === 'seam' ? `${place.seam} opens` : `${place.panel} is slit`;
  return `${name}: ${what} ${where}; reinforce that point with a patch of ${PATCH[units]}`;
};

const heightWords = (below: number | undefined, units: Units): string => {
  if (below === undefined) return 'at the point marked';
  const size = formatLength(Math.abs(below), units);
  if (!/[1-9]/.test(size)) return 'from the waist';
  return `${size} ${below > 0 ? 'below' : 'above'} the waist`;
};

const placeWords = ({ place }: Asked, units: Units): string => {
  const up = place.length === undefined ? '' : `, ${formatLength(place.length, units)} up from the bottom`;
  if (place.kind === 'slit') {
    const isMeasuredUp = place.level.name === 'bottom' && place.length !== undefined;
    return `a slit of ${place.panel}${isMeasuredUp ? up : ` below ${place.level.text}`}`;
  }
  return `${place.seam}${place.below === undefined ? up : ` below ${place.below.text}`}`;
};

/** `Set side-gusset into side below waist: 50.80 mm more at the bottom, twice round the body.` */
const wholeLine = ({ gussets, timesRound }: GussetChange, asked: Asked, units: Units): string => {
  const names = gussets.map(({ name }) => name).join(' and ');
  const often = timesRound === 2 ? ', twice round the body' : gussets.length > 1 ? ' on each side' : '';
  const again = gussets.some(({ replaced }) => replaced);
  const size = `${formatLength(asked.width, units)} ${again ? 'wide' : 'more'} at the bottom`;
  return `Set ${names}${again ? ' anew' : ''} into ${placeWords(asked, units)}: ${size}${often}.`;
};

const jsonOf = ({ gussets, girth, timesRound }: GussetChange, asked: Asked): Record<string, unknown> => ({
  gussets: gussets.map((gusset) => ({
    panel: gusset.name,
    ...(gusset.side === undefined ? {} : { side: gusset.side }),
    front_side_mm: gusset.front,
    back_side_mm: gusset.back,
    width_mm: gusset.width,
    apex_degrees: degreesOf(gusset.apexAngle),
    sides: asked.sides,
    replaced: gusset.replaced,
    openings: gusset.points.map(({ panel, edge, belowWaist, length }) => ({
      panel,
      ...(edge === undefined ? {} : { edge }),
      ...(belowWaist === undefined ? {} : { point_below_waist_mm: belowWaist }),
      length_mm: length,
    })),
  })),
  times_round_body: timesRound,
  ...(asked.measured ? { measured_mm: asked.measured } : {}),
  levels: shapeJson({ girth, edges: [] })['levels'],
});
