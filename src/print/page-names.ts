import type { PageLayout, Tile } from './page-layout.ts';

/** A page in the order of printing: one tile of one sheet. */
export interface TilePage {
  readonly sheet: number;
  readonly tile: Tile;
  readonly number: number;
}

/** All tiles in the order they are printed in; `first` is the number of the first of them. */
export const tilePages = (layout: PageLayout, first: number): TilePage[] =>
  layout.sheets
    .flatMap(({ tiles }, sheet) => tiles.map((tile) => ({ sheet, tile })))
    .map(({ sheet, tile }, index) => ({ sheet, tile, number: first + index }));

/** `row 1, column 2`, with the letter of the sheet before it where there are several. */
export const placeOf = ({ sheet, tile }: TilePage, layout: PageLayout): string => {
  const place = `row ${tile.row + 1}, column ${tile.column + 1}`;
  return layout.sheets.length > 1 ? `sheet ${sheetLetter(sheet)}, ${place}` : place;
};

/** A, B, ... Z, AA, AB, ... */
export const sheetLetter = (index: number): string => {
  const last = String.fromCodePoint(65 + (index % 26));
  return index < 26 ? last : sheetLetter(Math.floor(index / 26) - 1) + last;
};
