import { translation, type Matrix } from '../geometry/matrix.ts';
import { drawJoints, drawTrimLines } from './draw-joints.ts';
import { drawPageNumber } from './draw-page-number.ts';
import type { Ink } from '../ink/ink.ts';
import type { Placement } from './page-layout.ts';
import { placeWords, type TilePage } from './page-names.ts';
import { setText } from '../ink/set-text.ts';
import { shownOn, type TileContext } from './tile-context.ts';

const SMALL = 3;

/** Draws one page, in millimetres from its top left corner: its part of the panels, the marks to join it by, its name. */
export const drawTile = (ink: Ink, page: TilePage, context: TileContext): void => {
  const { layout } = context;
  const { margin } = layout.grid;
  const { tile } = page;
  ink.within(translation(margin, margin), () => {
    drawPageNumber(ink, page, context);
    ink.within(undefined, () => {
      ink.clip(0, 0, tile.width, tile.height);
      for (const { placement } of shownOn(page, context)) {
        ink.within(translation(-tile.x, -tile.y), () => {
          ink.within(turnAndMove(placement), () => ink.form(formName(placement.piece)));
        });
      }
      drawJoints(ink, page, context);
    });
    drawTrimLines(ink, page, context);
    drawFooter(ink, page, context);
  });
};

export const formName = (piece: number): string => `P${piece + 1}`;

const turnAndMove = ({ turned, x, y }: Placement): Matrix =>
  turned ? { a: 0, b: 1, c: -1, d: 0, e: x, f: y } : translation(x, y);

const drawFooter = (ink: Ink, page: TilePage, context: TileContext): void => {
  const { width, height } = page.tile;
  if (context.layout.grid.margin < 8) return;
  const y = height + 4.2;
  const place = placeWords(page, context.layout).join(', ');
  const right = [`page ${page.number} of ${context.pageCount}`, place].filter(Boolean).join(' · ');
  const together = (setText(context.footer).width + setText(right).width + 2) * SMALL <= width;
  if (together) ink.text(context.footer, { x: 0, y }, { size: SMALL, grey: 0.25 });
  ink.text(right, { x: width, y }, { size: SMALL, align: 'end', grey: 0.25 });
};
