import type { Point } from '../geometry/point.ts';
import type { Ink } from '../ink/ink.ts';
import { NOTES_CORNER } from './page-layout.ts';
import { MARK_RADIUS } from './page-joints.ts';
import { placeWords, type TilePage } from './page-names.ts';
import { blockAt, linesOf, type TextBlock } from './text-block.ts';
import { closed, isFree, isWithin } from './text-spot.ts';
import { neighbour, shownOn, type TileContext } from './tile-context.ts';

const NUMBER_SIZE = 13;
const PLACE_SIZE = 4.6;
const SIZES = [1, 0.8, 0.6, 0.45];
/** Places tried across and down, from the sides of the page to its middle. */
const SHARES = [1, 0, 0.9, 0.1, 0.8, 0.2, 0.65, 0.35, 0.5];
/** From the sides of the page, and where it is joined from the strip and the circles there. */
const INSET = 2;
const ON_BARE_PAPER = 0.45;
const WITHIN_A_PANEL = 0.6;
const UNDER_LINES = 0.78;

/**
 * The number of the page and its place, large enough to sort pages by across a table: on bare paper, smaller where there is
 * little of it; else pale within a panel, clear of its lines and words; else paler still, under lines.
 */
export const drawPageNumber = (ink: Ink, page: TilePage, context: TileContext): void => {
  if (context.pageCount === 1) return;
  const onPage = (points: readonly Point[]): Point[] =>
    points.map(({ x, y }) => ({ x: x - page.tile.x, y: y - page.tile.y }));
  const shown = shownOn(page, context);
  const panels = shown.map(({ polygon }) => onPage(polygon));
  if (context.layout.notesOnFirstTile && page === context.pages[0]) panels.push([...NOTES_CORNER]);
  const around = panels.map(closed);
  const words = shown.flatMap((piece) => piece.words.map(onPage)).map(closed);
  const lines = [...around, ...words, ...shown.flatMap((piece) => piece.lines.map(onPage))];
  const first = (suits: (block: TextBlock) => boolean): TextBlock | undefined => {
    for (const block of places(page, context)) if (suits(block)) return block;
    return undefined;
  };
  const bare = first(({ spot }) => isFree(spot, around) && !panels.some((polygon) => isWithin(polygon, spot.middle)));
  const clear = bare ?? first(({ spot }) => isFree(spot, lines));
  const block = clear ?? first(({ spot }) => isFree(spot, words)) ?? [...places(page, context)].at(-1)!;
  const grey = bare ? ON_BARE_PAPER : clear ? WITHIN_A_PANEL : UNDER_LINES;
  for (const { text, at, size } of linesOf(block)) ink.text(text, at, { size, align: 'middle', grey });
};

/** The words at every size in every place, the largest first, clear of where pages meet. */
function* places(page: TilePage, context: TileContext): Generator<TextBlock> {
  const { width, height } = page.tile;
  const { overlap } = context.layout.grid;
  const inset = (right: number, down: number): number =>
    neighbour(page, right, down, context) ? INSET + MARK_RADIUS + (right + down > 0 ? overlap : 0) : INSET;
  const [left, right, above, below] = [inset(-1, 0), inset(1, 0), inset(0, -1), inset(0, 1)];
  for (const factor of SIZES) {
    const words = [
      { text: `page ${page.number}`, size: NUMBER_SIZE * factor, weight: 'regular' as const },
      ...placeWords(page, context.layout).map((text) => ({
        text,
        size: PLACE_SIZE * factor,
        weight: 'regular' as const,
      })),
    ];
    const { spot } = blockAt(words, { x: 0, y: 0 });
    const roomX = width - left - right - spot.width;
    const roomY = height - above - below - spot.height;
    if (roomX < 0 || roomY < 0) continue;
    for (const down of SHARES) {
      for (const across of SHARES) {
        const middle = { x: left + spot.width / 2 + across * roomX, y: above + spot.height / 2 + down * roomY };
        yield { words, spot: { ...spot, middle } };
      }
    }
  }
}
