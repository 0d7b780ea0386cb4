/** What a slashing asks for, read on one panel: which edges open and hinge, and which part is held. */

import { crossHorizontal } from '../../geometry/intersect.ts';
import { SAME_POINT } from '../../geometry/tolerance.ts';
import { usage } from '../../errors.ts';
import { seamSpan } from '../../pattern/chord.ts';
import { levelY } from '../../pattern/level-y.ts';
import { findLevel, sidesOf, topEdge, type PanelSides } from '../../pattern/look-up.ts';
import type { Panel } from '../../pattern/panel.ts';
import { suggestName } from '../../pattern/suggest.ts';
import type { SlashEnd } from './slash-lines.ts';
import type { Slash } from '../slash-options.ts';

type Place = keyof PanelSides;

/** The parts that are held: one, or the two on either side of a slash, which then turn or move half the way each. */
type Held = { readonly part: number } | { readonly bothSidesOf: number };

export interface SlashPlan {
  /** Slashes from top or bottom run down the panel, its parts following from front to back; from a seam across, from top to bottom. */
  readonly way: 'down' | 'across';
  readonly from: Place;
  readonly opposite: Place;
  /** The edge that belongs to the first part, and that of the last. */
  readonly first: Place;
  readonly last: Place;
  readonly count: number;
  /** The heights of slashes across. */
  readonly heights: readonly number[];
  /** Where the front and the back seam meet the level that slashes down end at; absent where they go right through. */
  readonly seamEnds?: readonly [SlashEnd, SlashEnd];
  readonly parallel: boolean;
  readonly spread: number;
  readonly held: Held;
}

const MOST_LINES = 20;

const OPPOSITE: Readonly<Record<Place, Place>> = { top: 'bottom', bottom: 'top', front: 'back', back: 'front' };

const placeNamed = (panel: Panel, sides: PanelSides, name: string): Place => {
  const places = ['top', 'bottom', 'front', 'back'] as const;
  const found = places.find((place) => sides[place].name === name);
  if (found) return found;
  throw usage(
    `panel ${panel.name} has no edge ${name}`,
    '--from',
    suggestName(
      name,
      places.map((place) => sides[place].name),
    ),
  );
};

/** The crossing of the level that is nearest, along the seam, to the edge that opens. */
const seamEnd = (
  panel: Panel,
  sides: PanelSides,
  side: 'front' | 'back',
  from: Place,
  y: number,
): SlashEnd | undefined => {
  const crossings = crossHorizontal(sides[side].path, y);
  const atEnd = (side === 'back') === (from === 'bottom');
  const found = crossings.at(atEnd ? -1 : 0);
  return found && { location: found.location, point: found.point };
};

const endsOnLevel = (panel: Panel, sides: PanelSides, from: Place, what: Slash): readonly [SlashEnd, SlashEnd] => {
  const hinge = what.hinge!;
  const y = levelY(panel, hinge);
  const [front, back] = [seamEnd(panel, sides, 'front', from, y), seamEnd(panel, sides, 'back', from, y)];
  const span = seamSpan(panel)!;
  if (front && back && y > span.top + SAME_POINT && y < span.bottom - SAME_POINT) return [front, back];
  throw usage(
    `${hinge.text} does not lie between the top and the bottom of both seams of panel ${panel.name}`,
    '--hinge',
    `right through is --hinge ${OPPOSITE[from]}`,
  );
};

const checkNumbers = ({ lines, spread, at }: Slash): void => {
  if (!Number.isInteger(lines) || lines < 1 || lines > MOST_LINES)
    throw usage(`takes a whole number from 1 to ${MOST_LINES}`, '--lines', 'three slashes are --lines 3');
  if (!Number.isFinite(spread) || spread === 0)
    throw usage('a spread of nothing changes nothing', '--spread', 'open each slash by 6mm, or overlap it by -6mm');
  if (at.length > MOST_LINES) throw usage(`there are more than ${MOST_LINES}`, '--level', 'leave some out');
};

const heldDown = ({ keep, lines }: Slash): Held => {
  if (keep === 'front') return { part: 0 };
  if (keep === 'back') return { part: lines };
  return lines % 2 === 0 ? { part: lines / 2 } : { bothSidesOf: (lines - 1) / 2 };
};

const planDown = (panel: Panel, sides: PanelSides, from: Place, what: Slash): SlashPlan => {
  const { hinge } = what;
  const opposite = OPPOSITE[from];
  if (what.at.length > 0)
    throw usage(`says where slashes from a seam lie, not from ${from}`, '--level', 'leave it out');
  const isEdge = (place: Place): boolean => hinge?.name === sides[place].name && hinge.offset === 0;
  if (isEdge(from)) throw usage('is the edge that opens', '--hinge', `right through is --hinge ${opposite}`);
  if (isEdge('front') || isEdge('back'))
    throw usage(`slashes from ${from} cannot end at seam ${hinge!.name}`, '--hinge', `give a level, or ${opposite}`);
  const through = hinge === undefined || isEdge(opposite);
  return {
    way: 'down',
    from,
    opposite,
    first: 'front',
    last: 'back',
    count: what.lines,
    heights: [],
    ...(through ? {} : { seamEnds: endsOnLevel(panel, sides, from, what) }),
    parallel: hinge === undefined,
    spread: what.spread,
    held: heldDown(what),
  };
};

const heightsOf = (panel: Panel, { at, lines }: Slash): number[] => {
  const { top, bottom } = seamSpan(panel)!;
  if (at.length === 0) return Array.from({ length: lines }, (_, i) => top + ((bottom - top) * (i + 1)) / (lines + 1));
  const heights = at.map((level) => ({ level, y: levelY(panel, level) })).toSorted((a, b) => a.y - b.y);
  for (const [i, { level, y }] of heights.entries()) {
    if (y < top + SAME_POINT || y > bottom - SAME_POINT)
      throw usage(`${level.text} does not lie inside panel ${panel.name}`, '--level', 'slash across the panel');
    if (i > 0 && y - heights[i - 1]!.y < SAME_POINT)
      throw usage(`${level.text} is given twice`, '--level', 'give each slash a level of its own');
  }
  return heights.map(({ y }) => y);
};

/** The part that the waist lies on keeps the grain; a slash along the waist opens evenly to both sides of it. */
const heldAcross = (panel: Panel, heights: readonly number[]): Held => {
  const waist = findLevel(panel, 'waist')?.y ?? 0;
  const onWaist = heights.findIndex((y) => Math.abs(y - waist) < SAME_POINT);
  return onWaist >= 0 ? { bothSidesOf: onWaist } : { part: heights.filter((y) => y < waist).length };
};

const planAcross = (panel: Panel, sides: PanelSides, from: Place, what: Slash): SlashPlan => {
  const opposite = OPPOSITE[from];
  const other = sides[opposite].name;
  if (what.keep !== 'middle')
    throw usage(
      'belongs to slashes from top or bottom',
      '--keep',
      'from a seam, the part with the waist keeps the grain',
    );
  if (what.hinge && (what.hinge.name !== other || what.hinge.offset !== 0))
    throw usage(
      what.hinge.name === what.from ? 'is the edge that opens' : `slashes from seam ${what.from} end at seam ${other}`,
      '--hinge',
      `write --hinge ${other}`,
    );
  const heights = heightsOf(panel, what);
  return {
    way: 'across',
    from,
    opposite,
    first: 'top',
    last: 'bottom',
    count: heights.length,
    heights,
    parallel: what.hinge === undefined,
    spread: what.spread,
    held: heldAcross(panel, heights),
  };
};

/** @throws usage for an edge, a hinge, a level, a number or a part to keep that does not fit the panel; input for an unlabelled one. */
export const planSlash = (panel: Panel, what: Slash): SlashPlan => {
  topEdge(panel);
  const sides = sidesOf(panel)!;
  checkNumbers(what);
  const from = placeNamed(panel, sides, what.from);
  return from === 'top' || from === 'bottom'
    ? planDown(panel, sides, from, what)
    : planAcross(panel, sides, from, what);
};
