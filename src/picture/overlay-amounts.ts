import { joinBoxes, pathBox, type Box } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import type { Words } from '../ink/scene.ts';
import { wordsWidth } from '../ink/words-box.ts';
import { flattenPath } from '../geometry/flatten.ts';
import type { Path } from '../geometry/path.ts';
import { LEADING, TYPE } from './hand.ts';
import { centred } from './marks.ts';
import { spreadApart } from './spread-apart.ts';

/** An amount and the place on the picture where it is told: beside a panel, above it or below it. */
export interface Amount {
  readonly text: string;
  readonly at: Point;
  readonly side: 'left' | 'right' | 'top' | 'bottom';
  /** The lines of the panel, in both versions, on the picture. */
  readonly lines: readonly Path[];
}

/** White between an amount and the lines beside it. */
const AIR = 1.6;

/** Of a line of figures, with what keeps it from the next. */
const LINE = TYPE.figure * LEADING;

const look = { size: TYPE.figure, weight: 'bold', backed: true } as const;

export const amountWidth = (text: string): number => wordsWidth(text, look.size, look.weight);

/** The points of lines as near as a picture shows. */
const pointsOf = (lines: readonly Path[]): Point[] => lines.flatMap((path) => flattenPath(path, 0.1).flatMap(spaced));

/** With points between, so that no straight line passes between two heights unseen. */
const spaced = (point: Point, at: number, all: readonly Point[]): Point[] => {
  const next = all[at + 1];
  if (next === undefined) return [point];
  const count = Math.ceil(Math.hypot(next.x - point.x, next.y - point.y));
  return Array.from({ length: Math.max(1, count) }, (_, i) => ({
    x: point.x + ((next.x - point.x) * i) / count,
    y: point.y + ((next.y - point.y) * i) / count,
  }));
};

const boxOf = (lines: readonly Path[]): Box => joinBoxes(lines.map(pathBox));

/** Beside the outermost of the lines at its height. */
const besideWords = ({ text, side, lines }: Amount, y: number): Words => {
  const near = pointsOf(lines).filter((point) => Math.abs(point.y - y) < LINE * 0.75);
  const xs = near.map(({ x }) => x);
  const box = boxOf(lines);
  const x = side === 'left' ? Math.min(...xs, box.maxX) - AIR : Math.max(...xs, box.minX) + AIR;
  return centred({ text, at: { x, y }, ...look, align: side === 'left' ? 'end' : 'start' });
};

/** Above or below all lines across its width, within the panel where there is room for it. */
const acrossWords = ({ text, at, side, lines }: Amount): Words => {
  const half = amountWidth(text) / 2;
  const box = boxOf(lines);
  const [least, most] = [box.minX + half, box.maxX - half];
  const x = least > most ? (least + most) / 2 : Math.min(most, Math.max(least, at.x));
  const ys = pointsOf(lines)
    .filter((point) => Math.abs(point.x - x) < half + AIR)
    .map(({ y }) => y);
  const y = side === 'top' ? Math.min(...ys) - AIR - LINE / 2 : Math.max(...ys) + AIR + LINE / 2;
  return centred({ text, at: { x, y }, ...look, align: 'middle' });
};

/** Kept off the corners, where the amounts of top and bottom edges stand. */
const heightBeside = ({ at, lines }: Amount): number => {
  const { minY, maxY } = boxOf(lines);
  return Math.min(maxY - 1.5 * LINE, Math.max(minY + 1.5 * LINE, at.y));
};

/** The amounts of one gap between two panels, one below the other; those above and below panels where they belong. */
export const amountWords = (inGap: readonly Amount[]): Words[] => {
  const heights = spreadApart(inGap.map(heightBeside), LINE * 1.1);
  return inGap.map((amount, at) => besideWords(amount, heights[at]!));
};

export const edgeAmountWords = (amounts: readonly Amount[]): Words[] => amounts.map(acrossWords);
