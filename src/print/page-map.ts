import { boxesMeet, pointsBox } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import type { Ink } from '../ink/ink.ts';
import { HAIR, type LineStyle } from '../ink/line-style.ts';
import type { NotesBlock } from './notes-block.ts';
import type { NotesSubject } from './notes-subject.ts';
import { NOTES_CORNER, onSheet, type PrintSheet } from './page-layout.ts';
import { sheetLetter, tilePages } from './page-names.ts';
import { blockAt, linesOf, type TextBlock } from './text-block.ts';
import { closed, cornersOfSpot, isFree, isWithin } from './text-spot.ts';

const BETWEEN = 6;
const LETTER = 4;
const PAGE_EDGE: LineStyle = { width: 0.2, grey: 0.5, dash: [1.5, 1] };
/** Never drawn larger than this share of the real size. */
const LARGEST = 1 / 4;
const NAME_SIZES = [2.8, 2.4, 2, 1.7];
const NUMBER_SIZES = [7, 5.5, 4.5, 3.5];
const SHARES = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9];

export interface MapBlock extends NotesBlock {
  /** Of the drawing to the real size. */
  readonly scale: number;
}

/** Every sheet drawn small, its panels and its pages with their numbers: as large as the room allows. */
export const mapBlock = (subject: NotesSubject, width: number, height: number): MapBlock => {
  const { sheets } = subject.layout;
  const sizes = sheets.map((sheet) => sizeOf(sheet));
  const { scale, rows } = fitted(sizes, width, height);
  return {
    scale,
    height: rows.reduce((sum, row) => sum + rowHeight(row, sizes, scale), 0),
    draw: (ink, { x, y }, firstTilePage) => {
      let top = y;
      for (const row of rows) {
        let left = x;
        for (const index of row) {
          if (sheets.length > 1) {
            ink.text(`sheet ${sheetLetter(index)}`, { x: left, y: top + LETTER }, { size: LETTER, weight: 'bold' });
          }
          drawSheet(ink, subject, index, firstTilePage, (p) => ({
            x: left + p.x * scale,
            y: top + LETTER * 1.3 + p.y * scale,
          }));
          left += sizes[index]!.width * scale + BETWEEN;
        }
        top += rowHeight(row, sizes, scale);
      }
    },
  };
};

/** Outlines, then names within them, then the number of each page where neither is. */
const drawSheet = (
  ink: Ink,
  { layout, pieces, pattern }: NotesSubject,
  index: number,
  firstTilePage: number,
  onMap: (p: Point) => Point,
): void => {
  const pages = tilePages(layout, firstTilePage).filter(({ sheet }) => sheet === index);
  const frames = pages.map(({ tile: { x, y, width, height } }) => box(x, y, width, height).map(onMap));
  const outlines = layout.sheets[index]!.placements.map((placement) => ({
    polygon: pieces[placement.piece]!.outline.map((p) => onMap(onSheet(placement, p))),
    name: pattern.panels[placement.piece]!.name,
  }));
  const filled = outlines.map(({ polygon }) => polygon);
  if (layout.notesOnFirstTile && index === 0) filled.push(NOTES_CORNER.map(onMap));
  for (const frame of frames) ink.strokeLine(frame, PAGE_EDGE, true);
  for (const polygon of filled) ink.strokeLine(polygon, HAIR, true);
  const names = outlines.map(({ name, polygon }) => nameWithin(name, polygon, frames));
  const words = names.map(({ spot }) => cornersOfSpot(spot));
  const numbers =
    pages.length > 1 ? pages.map(({ number }, at) => numberWithin(number, frames[at]!, filled, words)) : [];
  for (const { text, at, size, angle, weight } of [...names, ...numbers].flatMap(linesOf)) {
    ink.text(text, at, { size, angle, weight, align: 'middle' });
  }
};

const box = (x: number, y: number, width: number, height: number): Point[] => [
  { x, y },
  { x: x + width, y },
  { x: x + width, y: y + height },
  { x, y: y + height },
];

/** Places for words within a box, by size, then upright or turned, the middle of the box first. */
function* places(text: string, sizes: readonly number[], angles: readonly number[], around: readonly Point[]) {
  const { minX, minY, maxX, maxY } = pointsBox(around);
  for (const size of sizes) {
    for (const angle of angles) {
      for (const down of SHARES) {
        for (const across of SHARES) {
          const middle = { x: minX + across * (maxX - minX), y: minY + down * (maxY - minY) };
          yield blockAt([{ text, size, weight: sizes === NUMBER_SIZES ? 'bold' : 'regular' }], middle, angle);
        }
      }
    }
  }
}

const firstOf = (blocks: Iterable<TextBlock>, suits: (block: TextBlock) => boolean): TextBlock | undefined => {
  for (const block of blocks) if (suits(block)) return block;
  return undefined;
};

/** Inside its panel and on one page; else on several; else over the middle of the panel. */
const nameWithin = (name: string, polygon: readonly Point[], frames: readonly (readonly Point[])[]): TextBlock => {
  const candidates = (): Iterable<TextBlock> => places(name, NAME_SIZES, [0, -Math.PI / 2], polygon);
  const inside = (lines: readonly (readonly Point[])[]) =>
    firstOf(candidates(), ({ spot }) => isWithin(polygon, spot.middle) && isFree(spot, lines));
  const outline = closed(polygon);
  const { minX, minY, maxX, maxY } = pointsBox(polygon);
  return (
    inside([outline, ...frames.map(closed)]) ??
    inside([outline]) ??
    blockAt(
      [{ text: name, size: NAME_SIZES.at(-1)!, weight: 'regular' }],
      { x: (minX + maxX) / 2, y: (minY + maxY) / 2 },
      maxX - minX < maxY - minY ? -Math.PI / 2 : 0,
    )
  );
};

/** On bare paper; else within a panel clear of its name; else over an outline, but never over a name if it can be helped. */
const numberWithin = (
  number: number,
  frame: readonly Point[],
  filled: readonly (readonly Point[])[],
  words: readonly (readonly Point[])[],
): TextBlock => {
  const around = pointsBox(frame);
  const near = filled.filter((polygon) => boxesMeet(pointsBox(polygon), around));
  const lines = [frame, ...near, ...words].map(closed);
  const candidates = (): Iterable<TextBlock> => places(String(number), NUMBER_SIZES, [0], frame);
  const isBare = ({ spot }: TextBlock): boolean => !near.some((polygon) => isWithin(polygon, spot.middle));
  const isClear = ({ spot }: TextBlock): boolean => isFree(spot, lines);
  const fitsNames = ({ spot }: TextBlock): boolean => isFree(spot, words.map(closed));
  return (
    firstOf(candidates(), (block) => isBare(block) && isClear(block)) ??
    firstOf(candidates(), isClear) ??
    firstOf(candidates(), fitsNames) ??
    [...candidates()].at(-1)!
  );
};

interface Size {
  readonly width: number;
  readonly height: number;
}

const sizeOf = (sheet: PrintSheet): Size => ({
  width: Math.max(...sheet.tiles.map(({ x, width }) => x + width)),
  height: Math.max(...sheet.tiles.map(({ y, height }) => y + height)),
});

const rowHeight = (row: readonly number[], sizes: readonly Size[], scale: number): number =>
  Math.max(...row.map((index) => sizes[index]!.height * scale)) + LETTER * 1.3 + 2;

/** The largest scale at which all sheets, in order and in rows, fit the room. */
const fitted = (sizes: readonly Size[], width: number, height: number): { scale: number; rows: number[][] } => {
  let scale = LARGEST;
  for (let tries = 0; ; tries++) {
    const rows = inRows(sizes, width, scale);
    const high = rows.reduce((sum, row) => sum + rowHeight(row, sizes, scale), 0);
    const wide = Math.max(...sizes.map((size) => size.width * scale));
    if ((high <= height && wide <= width) || tries === 200) return { scale, rows };
    scale *= 0.96;
  }
};

const inRows = (sizes: readonly Size[], width: number, scale: number): number[][] => {
  const rows: number[][] = [];
  let left = Infinity;
  sizes.forEach((size, index) => {
    const wide = size.width * scale;
    if (left + wide > width) {
      rows.push([]);
      left = 0;
    }
    rows[rows.length - 1]!.push(index);
    left += wide + BETWEEN;
  });
  return rows;
};
