/**
 * The words on a panel and where they go: inside its stitching line, clear of every other line and of each other
 * where there is room, smaller or turned where there is less.
 */
import { locationAtLength, pathLength } from '../geometry/arc-length.ts';
import { pointOn, tangentOn } from '../geometry/evaluate.ts';
import { movePoint, type Point } from '../geometry/point.ts';
import { leftNormal, scaled } from '../geometry/vector.ts';
import { formatLength, mixedFraction, MM_PER_INCH, SIXTY_FOURTHS } from '../pattern/format-length.ts';
import type { Edge, Level, Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import type { Joints } from './page-joints.ts';
import { panelTitles } from './panel-title.ts';
import { isolated } from '../ink/set-text.ts';
import { blockAt, heightOf, widthOf, type TextBlock, type Words } from './text-block.ts';
import { closed, cornersOfSpot, isFree, isWithin } from './text-spot.ts';

const MARK = 3.8;
/** From an edge or a level to the nearer side of its name. */
const OFF_EDGE = 1.6;
const OFF_LEVEL = 0.6;
const SMALLER = [1, 0.85, 0.7];

export interface PanelWords {
  readonly pattern: Pattern;
  readonly panel: Panel;
  /** The stitching line (or whatever outline the panel has), closed, as points. */
  readonly outline: readonly Point[];
  /** Every line that text keeps clear of; what is placed is added. */
  readonly lines: readonly (readonly Point[])[];
  /** Where pages meet: text keeps clear of these too where it can. */
  readonly joints: Joints | undefined;
  readonly hash: string;
}

export const panelTexts = ({ pattern, panel, outline, lines, joints, hash }: PanelWords): TextBlock[] => {
  const taken: (readonly Point[])[] = [closed(outline), ...lines];
  const placed: TextBlock[] = [];
  const [strips, marks] = [joints?.strips ?? [], joints?.marks ?? []];
  const put = (blocks: () => Iterable<TextBlock>, isNeeded = true): void => {
    const block =
      firstFree(blocks(), outline, taken, [...strips, ...marks]) ??
      firstFree(blocks(), outline, [...taken, ...strips.map(closed)], marks) ??
      firstFree(blocks(), outline, taken, marks) ??
      firstFree(blocks(), outline, taken, []) ??
      (isNeeded ? [...blocks()].at(-1)! : undefined);
    if (!block) return;
    taken.push(closed(cornersOfSpot(block.spot)));
    placed.push(block);
  };
  put(() => panelTitles(pattern, panel, hash, outline));
  for (const edge of panel.edges) put(() => edgeNames(panel.gusset ? withinGusset(edge) : edge, pattern.units));
  // A gusset tapers to nothing: a level whose name finds no room there is named on the panels beside it.
  for (const level of panel.levels) put(() => levelNames(level), panel.gusset === undefined);
  return placed;
};

/** The first block inside the outline that no line comes into and that has no part in what is shut off. */
const firstFree = (
  blocks: Iterable<TextBlock>,
  outline: readonly Point[],
  lines: readonly (readonly Point[])[],
  shut: readonly (readonly Point[])[],
): TextBlock | undefined => {
  const all = [...lines, ...shut.map(closed)];
  for (const { words, spot } of blocks) {
    const { middle } = spot;
    if (!isWithin(outline, middle) || shut.some((polygon) => isWithin(polygon, middle))) continue;
    if (isFree(spot, all)) return { words, spot };
  }
  return undefined;
};

const edgeWords = (edge: Edge, units: Units): string =>
  edge.allowance === undefined ? edge.name : `${isolated(edge.name)} · ${width(edge.allowance, units)}`;

/** On a small panel that bears its own name, a side is `front` or `back`. */
const withinGusset = (edge: Edge): Edge => ({ ...edge, name: edge.name.split('-').at(-1)! });

/** A width as it is set on a ruler: `15 mm`, `5/8 in`; one that is no whole 64th of an inch is given in full. */
const width = (mm: number, units: Units): string => {
  if (units === 'mm') return `${Math.round(mm * 10) / 10} mm`;
  const parts = (mm / MM_PER_INCH) * SIXTY_FOURTHS;
  return Math.abs(parts - Math.round(parts)) < 0.01 ? `${mixedFraction(Math.round(parts))} in` : formatLength(mm, 'in');
};

const ALONG = [0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75, 0.2, 0.8, 0.15, 0.85];
/** From the edge inwards, in lines of its name: further in only where there is no room beside it. */
const INWARDS = [0, 1.2];

/** Along the edge, inside it, never upside down. */
function* edgeNames(edge: Edge, units: Units): Generator<TextBlock> {
  const length = pathLength(edge.path);
  for (const smaller of SMALLER) {
    const words: Words[] = [{ text: edgeWords(edge, units), size: MARK * smaller, weight: 'regular' }];
    for (const [lines, along] of INWARDS.flatMap((further) => ALONG.map((at) => [further, at] as const))) {
      const inset = OFF_EDGE + (0.5 + lines) * heightOf(words);
      const { segment: at, t } = locationAtLength(edge.path, along * length);
      const segment = edge.path.segments[at]!;
      const tangent = tangentOn(segment, t);
      const aside = scaled(leftNormal(tangent), -inset);
      yield blockAt(words, movePoint(pointOn(segment, t), aside), readable(Math.atan2(tangent.dy, tangent.dx)));
    }
  }
}

/** The same direction or its opposite, whichever reads from the foot or from the right-hand side of the page. */
const readable = (angle: number): number => {
  const steep = Math.PI / 2 + LEANING;
  if (angle > Math.PI / 2 - LEANING) return angle - Math.PI;
  return angle < -steep ? angle + Math.PI : angle;
};

/** An edge that leans this little (radians) still reads upwards, so that the names of both edges of a panel read alike. */
const LEANING = 0.35;

/** Above the level near its front end, else near its back end or in the middle, or below it. */
function* levelNames(level: Level): Generator<TextBlock> {
  const room = level.toX - level.fromX;
  for (const smaller of SMALLER) {
    const words: Words[] = [{ text: level.name, size: MARK * smaller, weight: 'regular' }];
    const [wide, high] = [widthOf(words), heightOf(words)];
    const off = OFF_LEVEL + high / 2;
    for (const down of [-off, off]) {
      for (const start of [9, room - wide - 9, (room - wide) / 2, 3, room - wide - 3]) {
        yield blockAt(words, { x: level.fromX + start + wide / 2, y: level.y + down });
      }
    }
  }
}
