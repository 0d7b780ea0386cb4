/**
 * The words on a panel and where they go: inside its stitching line, clear of every other line and of each other
 * where there is room, smaller or turned where there is less.
 */
import { locationAtLength, pathLength } from '../geometry/arc-length.ts';
import { pointOn, tangentOn } from '../geometry/evaluate.ts';
import type { Point } from '../geometry/point.ts';
import { leftNormal } from '../geometry/vector.ts';
import { formatLength, mixedFraction, MM_PER_INCH, SIXTY_FOURTHS } from '../pattern/format-length.ts';
import type { Edge, Level, Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { boxOf } from './box-of.ts';
import { setText } from './set-text.ts';
import { cornersOfSpot, isFree, isWithin, withinSpot, type TextSpot } from './text-spot.ts';
import type { Weight } from './typefaces.ts';

/** A line of text in its place: the base line runs through `at`, which is its middle. */
export interface PlacedText {
  readonly text: string;
  readonly at: Point;
  readonly size: number;
  readonly angle: number;
  readonly weight: Weight;
}

interface Words {
  readonly text: string;
  readonly size: number;
  readonly weight: Weight;
}

/** Sizes of the em in millimetres: capitals are about three quarters of it, so that they read at arm's length. */
const NAME = 9;
const CUT = 5.2;
const MARK = 3.8;
const NOTE = 3.4;
const LEADING = 1.3;
/** From an edge or a level to the foot of its name. */
const OFF_LINE = 2;

export interface PanelWords {
  readonly pattern: Pattern;
  readonly panel: Panel;
  /** The stitching line (or whatever outline the panel has), closed, as points. */
  readonly outline: readonly Point[];
  /** Every line that text keeps clear of; what is placed is added. */
  readonly lines: readonly (readonly Point[])[];
  /** Where pages meet: text keeps clear of these too where it can. */
  readonly joints: readonly (readonly Point[])[];
  readonly hash: string;
}

export const panelTexts = ({ pattern, panel, outline, lines, joints, hash }: PanelWords): PlacedText[] => {
  const closed = [...outline, outline[0]!];
  const taken: (readonly Point[])[] = [closed, ...lines];
  const placed: PlacedText[] = [];
  const put = (words: readonly Words[], spots: () => Iterable<TextSpot>): void => {
    const spot =
      firstFree(spots(), outline, [...taken, ...joints]) ?? firstFree(spots(), outline, taken) ?? [...spots()].at(-1)!;
    const corners = cornersOfSpot(spot);
    taken.push([...corners, corners[0]!]);
    placed.push(...linesOf(words, spot));
  };
  const title = titleOf(pattern, panel, hash);
  put(title, () => titleSpots(title, outline));
  for (const edge of panel.edges) {
    const words = { text: edgeWords(edge, pattern.units), size: MARK, weight: 'regular' } as const;
    put([words], () => edgeSpots(words, edge));
  }
  for (const level of panel.levels) {
    const words = { text: level.name, size: MARK, weight: 'regular' } as const;
    put([words], () => levelSpots(words, level));
  }
  return placed;
};

const firstFree = (
  spots: Iterable<TextSpot>,
  outline: readonly Point[],
  lines: readonly (readonly Point[])[],
): TextSpot | undefined => {
  for (const spot of spots) {
    if (isWithin(outline, spot.middle) && isFree(spot, lines)) return spot;
  }
  return undefined;
};

const titleOf = (pattern: Pattern, panel: Panel, hash: string): Words[] => [
  { text: panel.name, size: NAME, weight: 'bold' },
  { text: pattern.pieces === 'pairs' ? 'cut 2, mirrored' : 'cut 1', size: CUT, weight: 'regular' },
  { text: whichLine(panel), size: NOTE, weight: 'regular' },
  { text: `${pattern.name} · ${hash.slice(0, 8)}`, size: NOTE, weight: 'regular' },
];

/** Which line is which: it is the question that costs mock-ups. */
const whichLine = (panel: Panel): string => {
  if (panel.cutting) return 'with seam allowance';
  return panel.line === 'cutting' ? 'outline is the cutting line' : 'net: no seam allowance';
};

const edgeWords = (edge: Edge, units: Units): string =>
  edge.allowance === undefined ? edge.name : `${edge.name} · ${width(edge.allowance, units)}`;

/** A width as it is set on a ruler: `15 mm`, `5/8 in`; one that is no whole 64th of an inch is given in full. */
const width = (mm: number, units: Units): string => {
  if (units === 'mm') return `${Math.round(mm * 10) / 10} mm`;
  const parts = (mm / MM_PER_INCH) * SIXTY_FOURTHS;
  return Math.abs(parts - Math.round(parts)) < 0.01 ? `${mixedFraction(Math.round(parts))} in` : formatLength(mm, 'in');
};

const widthOf = (words: readonly Words[]): number =>
  Math.max(...words.map(({ text, weight, size }) => setText(text, weight).width * size));

const heightOf = (words: readonly Words[]): number => words.reduce((sum, { size }) => sum + size * LEADING, 0);

/** The lines of a block, one under the other, in a spot that may be smaller than they were measured. */
const linesOf = (words: readonly Words[], spot: TextSpot): PlacedText[] => {
  const factor = spot.height / heightOf(words);
  let down = -spot.height / 2;
  return words.map(({ text, size, weight }) => {
    const base = down + size * factor * (LEADING - 0.32);
    down += size * factor * LEADING;
    return { text, weight, size: size * factor, angle: spot.angle, at: withinSpot(spot, 0, base) };
  });
};

const SIZES = [1, 0.85, 0.7, 0.6, 0.5, 0.42];
const HEIGHTS = [0.36, 0.3, 0.42, 0.24, 0.48, 0.18, 0.55, 0.62, 0.7, 0.78, 0.12, 0.86];
const ASIDE = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8];

function* titleSpots(words: readonly Words[], outline: readonly Point[]): Generator<TextSpot> {
  const box = boxOf(outline);
  const [wide, high] = [widthOf(words), heightOf(words)];
  for (const size of SIZES) {
    for (const angle of size > 0.65 ? [0] : [0, -Math.PI / 2]) {
      // Text that stands upright may be larger than text that must fit across.
      const factor = angle === 0 ? size : size * 1.4;
      for (const down of HEIGHTS) {
        for (const aside of ASIDE) {
          const middle = {
            x: box.minX + aside * (box.maxX - box.minX),
            y: box.minY + down * (box.maxY - box.minY),
          };
          yield { middle, width: wide * factor, height: high * factor, angle };
        }
      }
    }
  }
}

const ALONG = [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82];

/** Along the edge, inside it, never upside down. */
function* edgeSpots(words: Words, edge: Edge): Generator<TextSpot> {
  const length = pathLength(edge.path);
  const wide = widthOf([words]);
  for (const size of [1, 0.8, 0.65]) {
    for (const along of ALONG) {
      const location = locationAtLength(edge.path, along * length);
      const segment = edge.path.segments[location.segment]!;
      const tangent = tangentOn(segment, location.t);
      const outward = leftNormal(tangent);
      const height = words.size * size * LEADING;
      const inset = OFF_LINE + height / 2;
      const foot = pointOn(segment, location.t);
      const middle = { x: foot.x - outward.dx * inset, y: foot.y - outward.dy * inset };
      yield { middle, width: wide * size, height, angle: readable(Math.atan2(tangent.dy, tangent.dx)) };
    }
  }
}

/** The same direction or its opposite, whichever reads from the foot or the right-hand side of the page. */
const readable = (angle: number): number => {
  const steep = Math.PI / 2 + 0.2;
  if (angle > steep - 0.4) return angle - Math.PI;
  return angle < -steep ? angle + Math.PI : angle;
};

/** Above the level near its front end, else near its back end, in the middle, or below it. */
function* levelSpots(words: Words, level: Level): Generator<TextSpot> {
  for (const size of [1, 0.8, 0.65]) {
    const wide = widthOf([words]) * size;
    const height = words.size * size * LEADING;
    const room = level.toX - level.fromX;
    const starts = [9, room - wide - 9, (room - wide) / 2, 3, room - wide - 3];
    for (const down of [-0.6 - height / 2, 0.6 + height / 2]) {
      for (const start of starts) {
        yield { middle: { x: level.fromX + start + wide / 2, y: level.y + down }, width: wide, height, angle: 0 };
      }
    }
  }
}
