import { boxOf } from './box-of.ts';
import { HAIR, type LineStyle } from './line-style.ts';
import type { NotesBlock, NotesSubject } from './notes.ts';
import { NOTES_HEIGHT, NOTES_WIDTH, onSheet, type PrintSheet } from './page-layout.ts';
import { setText } from './set-text.ts';
import { sheetLetter, tilePages } from './page-names.ts';

const BETWEEN = 6;
const LETTER = 4;
const PAGE_EDGE: LineStyle = { width: 0.15, grey: 0.55 };
/** Never drawn larger than this share of the real size. */
const LARGEST = 1 / 4;

/** Every sheet drawn small, its panels and its pages with their numbers: as large as the room allows. */
export const mapBlock = ({ layout, pieces, pattern }: NotesSubject, width: number, height: number): NotesBlock => {
  const sizes = layout.sheets.map((sheet) => sizeOf(sheet));
  const { scale, rows } = fitted(sizes, width, height);
  return {
    height: rows.reduce((sum, row) => sum + rowHeight(row, sizes, scale), 0),
    draw: (ink, { x, y }, firstTilePage) => {
      const pages = tilePages(layout, firstTilePage);
      let top = y;
      for (const row of rows) {
        let left = x;
        for (const index of row) {
          const sheet = layout.sheets[index]!;
          const at = (px: number, py: number) => ({ x: left + px * scale, y: top + LETTER * 1.3 + py * scale });
          if (layout.sheets.length > 1) {
            ink.text(`sheet ${sheetLetter(index)}`, { x: left, y: top + LETTER }, { size: LETTER, weight: 'bold' });
          }
          for (const page of pages.filter((candidate) => candidate.sheet === index)) {
            const { tile } = page;
            const corner = at(tile.x, tile.y);
            ink.strokeBox(corner.x, corner.y, tile.width * scale, tile.height * scale, PAGE_EDGE);
            const size = Math.min(7, tile.width * scale * 0.3, tile.height * scale * 0.4);
            const middle = at(tile.x + tile.width / 2, tile.y + tile.height / 2);
            ink.text(
              String(page.number),
              { x: middle.x, y: middle.y + size * 0.36 },
              { size, align: 'middle', grey: 0.55 },
            );
          }
          if (layout.notesOnFirstTile && index === 0) {
            const corner = at(0, 0);
            ink.strokeBox(corner.x, corner.y, NOTES_WIDTH * scale, NOTES_HEIGHT * scale, PAGE_EDGE);
          }
          for (const placement of sheet.placements) {
            const outline = pieces[placement.piece]!.outline.map((p) => onSheet(placement, p));
            ink.strokeLine(
              outline.map((p) => at(p.x, p.y)),
              HAIR,
              true,
            );
            const box = boxOf(outline);
            const name = pattern.panels[placement.piece]!.name;
            const [wide, high] = [(box.maxX - box.minX) * scale, (box.maxY - box.minY) * scale];
            const size = Math.min(2.8, wide / (setText(name).width + 0.5));
            const middle = at((box.minX + box.maxX) / 2, box.minY);
            ink.text(
              name,
              { x: middle.x, y: middle.y + high * (placement.turned ? 0.5 : 0.2) },
              { size, align: 'middle' },
            );
          }
          left += sizes[index]!.width * scale + BETWEEN;
        }
        top += rowHeight(row, sizes, scale);
      }
    },
  };
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
