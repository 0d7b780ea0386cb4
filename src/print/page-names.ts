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

/** The letter of its sheet where there are several, its row and column where the sheet has several pages. */
export const placeWords = ({ sheet, tile }: TilePage, { sheets }: PageLayout): string[] => [
  ...(sheets.length > 1 ? [`sheet ${sheetLetter(sheet)}`] : []),
  ...(sheets[sheet]!.tiles.length > 1 ? [`row ${tile.row + 1}, column ${tile.column + 1}`] : []),
];

/** A, B, ... Z, AA, AB, ... */
export const sheetLetter = (index: number): string => {
  const last = String.fromCodePoint(65 + (index % 26));
  return index < 26 ? last : sheetLetter(Math.floor(index / 26) - 1) + last;
};
