import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layoutPages } from '../../src/print/layout-pages.ts';
import { onPiece, onSheet, type PageLayout, type Piece } from '../../src/print/page-layout.ts';
import { paperNamed } from '../../src/print/paper-size.ts';
import { tilesAlong } from '../../src/print/tile-grid.ts';

const rectangle = (width: number, height: number): Piece => ({
  outline: [
    { x: 0, y: 0 },
    { x: width, y: 0 },
    { x: width, y: height },
    { x: 0, y: height },
  ],
});

const request = (paper: string, more = {}) => ({ paper: paperNamed(paper), margin: 10, overlap: 10, ...more });

const pageCount = ({ sheets, notesOnFirstTile }: PageLayout): number =>
  sheets.reduce((sum, { tiles }) => sum + tiles.length, notesOnFirstTile ? 0 : 1);

const corners = (layout: PageLayout, pieces: readonly Piece[]) =>
  layout.sheets.map((sheet) =>
    sheet.placements.map((placement) => {
      const points = pieces[placement.piece]!.outline.map((p) => onSheet(placement, p));
      const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
      return { minX: Math.min(...xs), maxX: Math.max(...xs), minY: Math.min(...ys), maxY: Math.max(...ys) };
    }),
  );

/** Which of the pieces are turned on upright a4 pages. */
const turnedOnA4 = (pieces: Piece[]): boolean[] =>
  layoutPages(pieces, request('a4', { orientation: 'portrait' })).sheets.flatMap(({ placements }) =>
    placements.map((placement) => placement.turned),
  );

const sizes = fc.array(fc.tuple(fc.integer({ min: 15, max: 700 }), fc.integer({ min: 15, max: 900 })), {
  minLength: 1,
  maxLength: 9,
});

const papers = fc.constantFrom('a4', 'letter', 'a3', 'a1', 'roll:610mm', '200x200mm');

describe('the layout of pages', () => {
  it('lays every piece once, apart from all others, wholly on printed pages', () => {
    fc.assert(
      fc.property(sizes, papers, (given, paper) => {
        const pieces = given.map(([w, h]) => rectangle(w, h));
        const layout = layoutPages(pieces, request(paper));
        const laid = layout.sheets.flatMap(({ placements }) => placements.map(({ piece }) => piece));
        expect(laid.toSorted((a, b) => a - b)).toEqual(pieces.map((_, index) => index));
        corners(layout, pieces).forEach((boxes, at) => {
          const { tiles } = layout.sheets[at]!;
          boxes.forEach((box, index) => {
            for (const other of boxes.slice(index + 1)) {
              const apart =
                box.maxX < other.minX || other.maxX < box.minX || box.maxY < other.minY || other.maxY < box.minY;
              expect(apart).toBe(true);
            }
            for (const x of [box.minX, (box.minX + box.maxX) / 2, box.maxX]) {
              for (const y of [box.minY, (box.minY + box.maxY) / 2, box.maxY]) {
                const shown = tiles.some((t) => x >= t.x && x <= t.x + t.width && y >= t.y && y <= t.y + t.height);
                expect(shown).toBe(true);
              }
            }
          });
        });
      }),
      { numRuns: 40 },
    );
  });

  it('takes no more pages than the pieces side by side in one row', () => {
    fc.assert(
      fc.property(sizes, (given) => {
        const pieces = given.map(([w, h]) => rectangle(w, h));
        const wide = given.reduce((sum, [w]) => sum + w + 2, 0);
        const high = Math.max(...given.map(([, h]) => h + 2));
        const row = tilesAlong(wide, 190, 10) * tilesAlong(high, 277, 10);
        expect(pageCount(layoutPages(pieces, request('a4')))).toBeLessThanOrEqual(row + 1);
      }),
      { numRuns: 40 },
    );
  });

  it('gives the same layout for the same pieces', () => {
    const pieces = [rectangle(95, 380), rectangle(80, 390), rectangle(75, 370), rectangle(110, 330)];
    expect(layoutPages(pieces, request('a4'))).toEqual(layoutPages(pieces, request('a4')));
  });

  it('puts what fits one page on one page, upright or turned, portrait or landscape', () => {
    expect(pageCount(layoutPages([rectangle(180, 270)], request('a4')))).toBe(2);
    expect(pageCount(layoutPages([rectangle(270, 180)], request('a4')))).toBe(2);
    expect(pageCount(layoutPages([rectangle(270, 180)], request('a4', { orientation: 'portrait' })))).toBe(2);
  });

  it('turns a piece only where that saves a page', () => {
    expect(turnedOnA4([rectangle(180, 180)])).toEqual([false]);
    expect(turnedOnA4([rectangle(270, 180)])).toEqual([true]);
  });

  it('keeps to the way of the paper that was asked for', () => {
    expect(layoutPages([rectangle(100, 270)], request('a4', { orientation: 'landscape' })).landscape).toBe(true);
  });

  it('puts the notes beside the pieces where paper is large enough, and on a page of their own where it is not', () => {
    expect(layoutPages([rectangle(90, 380)], request('a2')).notesOnFirstTile).toBe(true);
    expect(layoutPages([rectangle(90, 380)], request('a4')).notesOnFirstTile).toBe(false);
  });

  it('begins a piece on the next page where it then lies on fewer', () => {
    const layout = layoutPages([rectangle(180, 240), rectangle(180, 500)], request('a4', { orientation: 'portrait' }));
    expect(layout.sheets.flatMap(({ tiles }) => tiles)).toHaveLength(3);
    expect(layout.parts).toBe(3);
  });

  it('leaves out pages that nothing lies on', () => {
    const slanted: Piece = {
      outline: [
        { x: 0, y: 0 },
        { x: 20, y: 0 },
        { x: 780, y: 1000 },
        { x: 760, y: 1000 },
      ],
    };
    const layout = layoutPages([slanted], request('a4', { orientation: 'portrait' }));
    const [sheet] = layout.sheets;
    expect(sheet!.tiles.length).toBeLessThan(sheet!.columns * sheet!.rows);
  });

  it('cuts a roll off below the last piece', () => {
    const layout = layoutPages([rectangle(500, 700)], request('roll:610mm'));
    expect(layout.sheets[0]!.tiles[0]!.height).toBeLessThan(700 + 257 + 30);
  });

  it('refuses margins and overlaps that leave no room', () => {
    expect(() => layoutPages([rectangle(90, 380)], request('a4', { margin: 100 }))).toThrow(/leave no room/);
    expect(() => layoutPages([rectangle(90, 380)], request('a4', { overlap: 180 }))).toThrow(/leave no room/);
    expect(() => layoutPages([rectangle(90, 380)], request('a4', { margin: -1 }))).toThrow(/negative/);
  });

  it('takes a point of a sheet back to the piece it came from', () => {
    for (const turned of [false, true]) {
      const placement = { piece: 0, turned, x: 12, y: -7 };
      expect(onPiece(placement, onSheet(placement, { x: 3, y: 5 }))).toEqual({ x: 3, y: 5 });
    }
  });
});
