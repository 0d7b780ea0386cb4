import { boxesMeet, type Box } from '../geometry/box.ts';
import { translation } from '../geometry/matrix.ts';
import type { Point } from '../geometry/point.ts';
import { boxOf } from './box-of.ts';
import type { Ink } from './ink.ts';
import { GLUE, HAIR, TRIM } from './line-style.ts';
import {
  CLEARANCE,
  NOTES_HEIGHT,
  NOTES_WIDTH,
  onSheet,
  type PageLayout,
  type Piece,
  type Placement,
} from './page-layout.ts';
import { placeOf, type TilePage } from './page-names.ts';
import { setText } from './set-text.ts';
import { isFree, isWithin } from './text-spot.ts';

/** A piece where it lies on its sheet. */
interface LaidPiece {
  readonly placement: Placement;
  readonly polygon: readonly Point[];
  readonly box: Box;
}

export interface TileContext {
  readonly layout: PageLayout;
  /** The pieces of each sheet. */
  readonly laid: readonly (readonly LaidPiece[])[];
  readonly pages: readonly TilePage[];
  readonly pageCount: number;
  /** Printed small at the foot of every page. */
  readonly footer: string;
}

const MARK_RADIUS = 3;
const NUMBER_SIZE = 13;
const PLACE_SIZE = 4.6;
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

const turnAndMove = ({ turned, x, y }: Placement): Parameters<Ink['within']>[0] =>
  turned ? { a: 0, b: 1, c: -1, d: 0, e: x, f: y } : translation(x, y);

export const laidPieces = (layout: PageLayout, pieces: readonly Piece[]): LaidPiece[][] =>
  layout.sheets.map(({ placements }) =>
    placements.map((placement) => {
      const polygon = pieces[placement.piece]!.outline.map((p) => onSheet(placement, p));
      return { placement, polygon, box: boxOf(polygon) };
    }),
  );

const shownOn = ({ sheet, tile }: TilePage, { laid }: TileContext): LaidPiece[] => {
  const frame = { minX: tile.x, minY: tile.y, maxX: tile.x + tile.width, maxY: tile.y + tile.height };
  return laid[sheet]!.filter(({ box }) => boxesMeet(box, frame, CLEARANCE));
};

const neighbour = (page: TilePage, right: number, down: number, { pages }: TileContext): TilePage | undefined =>
  pages.find(
    ({ sheet, tile }) =>
      sheet === page.sheet && tile.column === page.tile.column + right && tile.row === page.tile.row + down,
  );

/** Where the next page's trimmed edge comes to lie, and circles that close when it lies right. */
const drawJoints = (ink: Ink, page: TilePage, context: TileContext): void => {
  const { stepX, stepY, overlap } = context.layout.grid;
  const { width, height } = page.tile;
  const right = neighbour(page, 1, 0, context);
  const below = neighbour(page, 0, 1, context);
  if (right) {
    ink.strokeLine(
      [
        { x: stepX, y: 0 },
        { x: stepX, y: height },
      ],
      GLUE,
    );
    label(
      ink,
      `page ${right.number} goes on here`,
      { x: stepX + overlap / 2 + 1, y: height / 2 },
      overlap,
      -Math.PI / 2,
    );
  }
  if (below) {
    ink.strokeLine(
      [
        { x: 0, y: stepY },
        { x: width, y: stepY },
      ],
      GLUE,
    );
    label(ink, `page ${below.number} goes on here`, { x: width / 2, y: stepY + overlap / 2 + 1 }, overlap, 0);
  }
  for (const share of [0.25, 0.75]) {
    const [x, y] = [share * width, share * height];
    if (right) drawRegister(ink, { x: stepX, y });
    if (neighbour(page, -1, 0, context)) drawRegister(ink, { x: 0, y });
    if (below) drawRegister(ink, { x, y: stepY });
    if (neighbour(page, 0, -1, context)) drawRegister(ink, { x, y: 0 });
  }
};

const label = (ink: Ink, text: string, at: Point, room: number, angle: number): void => {
  if (room >= 5) ink.text(text, at, { size: SMALL, angle, align: 'middle', grey: 0.35 });
};

const drawRegister = (ink: Ink, at: Point): void => {
  ink.strokeCircle(at, MARK_RADIUS, HAIR);
  ink.strokeLine(
    [
      { x: at.x - MARK_RADIUS, y: at.y },
      { x: at.x + MARK_RADIUS, y: at.y },
    ],
    HAIR,
  );
  ink.strokeLine(
    [
      { x: at.x, y: at.y - MARK_RADIUS },
      { x: at.x, y: at.y + MARK_RADIUS },
    ],
    HAIR,
  );
};

/** Where this page is cut before it is laid over the one before it: right through its margins. */
const drawTrimLines = (ink: Ink, page: TilePage, context: TileContext): void => {
  const { margin } = context.layout.grid;
  const { width, height } = page.tile;
  const reach = Math.max(0, margin - 4);
  const left = neighbour(page, -1, 0, context);
  const above = neighbour(page, 0, -1, context);
  if (left) {
    ink.strokeLine(
      [
        { x: 0, y: -reach },
        { x: 0, y: height + reach },
      ],
      TRIM,
    );
    if (margin >= 8)
      label(ink, `cut here, glue over page ${left.number}`, { x: -2, y: height / 2 }, margin, -Math.PI / 2);
  }
  if (above) {
    ink.strokeLine(
      [
        { x: -reach, y: 0 },
        { x: width + reach, y: 0 },
      ],
      TRIM,
    );
    if (margin >= 8) label(ink, `cut here, glue over page ${above.number}`, { x: width / 2, y: -2 }, margin, 0);
  }
};

/** Large enough to sort pages by across a table; on bare paper where there is some, else pale and under the lines. */
const drawPageNumber = (ink: Ink, page: TilePage, context: TileContext): void => {
  const { width, height } = page.tile;
  const number = `page ${page.number}`;
  const place = placeOf(page, context.layout);
  const wide = Math.max(setText(number).width * NUMBER_SIZE, setText(place).width * PLACE_SIZE) + 4;
  const high = NUMBER_SIZE + PLACE_SIZE + 6;
  const polygons = shownOn(page, context).map(({ polygon }) =>
    polygon.map(({ x, y }) => ({ x: x - page.tile.x, y: y - page.tile.y })),
  );
  if (context.layout.notesOnFirstTile && page === context.pages[0]) polygons.push(notesBlock);
  const lines = polygons.map((polygon) => [...polygon, polygon[0]!]);
  const inset = context.layout.grid.overlap + 4;
  const xs = [inset + wide / 2, width - inset - wide / 2, width / 2];
  const ys = [inset + high / 2, height - inset - high / 2, height / 2, height / 4, (height * 3) / 4];
  const free = ys
    .flatMap((y) => xs.map((x) => ({ x, y })))
    .find((middle) => {
      const spot = { middle, width: wide, height: high, angle: 0 };
      return isFree(spot, lines) && !polygons.some((polygon) => isWithin(polygon, middle));
    });
  const { x, y } = free ?? { x: width / 2, y: height / 2 };
  const grey = free ? 0.45 : 0.8;
  ink.text(number, { x, y: y + 2 }, { size: NUMBER_SIZE, align: 'middle', grey });
  ink.text(place, { x, y: y + 2 + PLACE_SIZE * 1.6 }, { size: PLACE_SIZE, align: 'middle', grey });
};

const notesBlock = [
  { x: 0, y: 0 },
  { x: NOTES_WIDTH, y: 0 },
  { x: NOTES_WIDTH, y: NOTES_HEIGHT },
  { x: 0, y: NOTES_HEIGHT },
];

const drawFooter = (ink: Ink, page: TilePage, context: TileContext): void => {
  const { width, height } = page.tile;
  if (context.layout.grid.margin < 8) return;
  const y = height + 4.2;
  const right = `page ${page.number} of ${context.pageCount} · ${placeOf(page, context.layout)}`;
  ink.text(context.footer, { x: 0, y }, { size: SMALL, grey: 0.25 });
  ink.text(right, { x: width, y }, { size: SMALL, align: 'end', grey: 0.25 });
};
