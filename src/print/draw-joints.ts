import type { Point } from '../geometry/point.ts';
import type { Ink } from '../ink/ink.ts';
import { GLUE, HAIR, TRIM } from '../ink/line-style.ts';
import { MARK_RADIUS, MARK_SHARES } from './page-joints.ts';
import type { TilePage } from './page-names.ts';
import { neighbour, type TileContext } from './tile-context.ts';

const SMALL = 3;

/** Where the next page's trimmed edge comes to lie, and circles that close when it lies right. */
export const drawJoints = (ink: Ink, page: TilePage, context: TileContext): void => {
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
  for (const share of MARK_SHARES) {
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
export const drawTrimLines = (ink: Ink, page: TilePage, context: TileContext): void => {
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
