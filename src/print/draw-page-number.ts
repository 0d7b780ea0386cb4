import type { Point } from '../geometry/point.ts';
import type { Ink } from './ink.ts';
import { NOTES_HEIGHT, NOTES_WIDTH } from './page-layout.ts';
import { placeOf, type TilePage } from './page-names.ts';
import { setText } from './set-text.ts';
import { isFree, isWithin } from './text-spot.ts';
import { shownOn, type TileContext } from './tile-context.ts';

const NUMBER_SIZE = 13;
const PLACE_SIZE = 4.6;
const ON_BARE_PAPER = 0.45;
const UNDER_LINES = 0.78;

/**
 * The number of the page and its place, large enough to sort pages by across a table: on bare paper where there is
 * some, else pale and under the lines of a panel, clear of its words where it can be.
 */
export const drawPageNumber = (ink: Ink, page: TilePage, context: TileContext): void => {
  const { width, height } = page.tile;
  const number = `page ${page.number}`;
  const place = placeOf(page, context.layout);
  const wide = Math.max(setText(number).width * NUMBER_SIZE, setText(place).width * PLACE_SIZE) + 4;
  const high = NUMBER_SIZE + PLACE_SIZE + 6;
  const onPage = (points: readonly Point[]): Point[] =>
    points.map(({ x, y }) => ({ x: x - page.tile.x, y: y - page.tile.y }));
  const shown = shownOn(page, context);
  const panels = shown.map(({ polygon }) => onPage(polygon));
  const words = shown.flatMap((piece) => piece.words.map(onPage));
  if (context.layout.notesOnFirstTile && page === context.pages[0]) {
    panels.push(NOTES);
    words.push(NOTES);
  }
  const middles = placesFor(wide, high, width, height, context.layout.grid.overlap + 4);
  const clearOf = (polygons: readonly (readonly Point[])[]): Point | undefined =>
    middles.find(
      (middle) =>
        isFree({ middle, width: wide, height: high, angle: 0 }, polygons.map(closed)) &&
        !polygons.some((polygon) => isWithin(polygon, middle)),
    );
  const bare = clearOf(panels);
  const { x, y } = bare ?? clearOf(words) ?? { x: width / 2, y: height / 2 };
  const grey = bare ? ON_BARE_PAPER : UNDER_LINES;
  ink.text(number, { x, y: y + 2 }, { size: NUMBER_SIZE, align: 'middle', grey });
  ink.text(place, { x, y: y + 2 + PLACE_SIZE * 1.6 }, { size: PLACE_SIZE, align: 'middle', grey });
};

/** Middles to try: the corners first, then down the sides and the middle of the page. */
const placesFor = (wide: number, high: number, width: number, height: number, inset: number): Point[] => {
  const xs = [inset + wide / 2, width - inset - wide / 2, width / 2];
  const ys = [inset + high / 2, height - inset - high / 2, ...[0.5, 0.25, 0.75, 0.375, 0.625].map((at) => at * height)];
  return ys.flatMap((y) => xs.map((x) => ({ x, y })));
};

const closed = (polygon: readonly Point[]): Point[] => [...polygon, polygon[0]!];

const NOTES = [
  { x: 0, y: 0 },
  { x: NOTES_WIDTH, y: 0 },
  { x: NOTES_WIDTH, y: NOTES_HEIGHT },
  { x: 0, y: NOTES_HEIGHT },
];
