import { StaywrightError } from '../errors.ts';
import { asDrawn } from '../pattern/mirror-panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { pointsBox, type Box } from '../geometry/box.ts';
import { drawPanel } from './draw-panel.ts';
import { drawTile, formName } from './draw-tile.ts';
import { GlyphFonts } from '../ink/glyph-fonts.ts';
import { Ink } from '../ink/ink.ts';
import { layoutPages } from './layout-pages.ts';
import type { NotesBlock } from './notes-block.ts';
import { drawNotes, notesPages } from './notes.ts';
import { pageJoints } from './page-joints.ts';
import { CLEARANCE, NOTES_HEIGHT, NOTES_WIDTH, type PageLayout, type Piece } from './page-layout.ts';
import { tilePages } from './page-names.ts';
import { panelShape } from './panel-shape.ts';
import type { PrintOptions } from './print-options.ts';
import { isolated } from '../ink/set-text.ts';
import { laidPieces } from './tile-context.ts';
import { POINTS_PER_MM, writeDocument, type DrawnPage } from '../ink/write-document.ts';

/**
 * The pattern as a PDF at true scale, in pages to glue together, with its notes at the front.
 * Each panel is drawn once and shown on every page that it touches; 1 mm is 72/25.4 points; readers are told not to scale.
 * The same pattern and options give the same bytes.
 * Throws a usage error where margin and overlap leave no room, an input error for a pattern without panels.
 */
export const printPattern = async (held: Pattern, options: PrintOptions): Promise<Uint8Array> => {
  const pattern = { ...held, panels: held.panels.map(asDrawn) };
  if (pattern.panels.length === 0) {
    throw new StaywrightError('input', 'there are no panels to print', {
      hint: 'staywright check tells what a sheet holds',
    });
  }
  const pieces: Piece[] = pattern.panels.map((panel) => ({ outline: panelShape(panel) }));
  const layout = layoutPages(pieces, options);
  const { grid } = layout;
  const fonts = new GlyphFonts();
  const joints = pageJoints(layout);
  const forms = pattern.panels.map((panel, index) => {
    const ink = new Ink(fonts);
    const drawn = drawPanel(ink, panel, { pattern, hash: options.hash, joints: joints.get(index) });
    return {
      name: formName(index),
      content: ink.content,
      box: withClearance(pointsBox(pieces[index]!.outline)),
      drawn,
    };
  });

  const shared = layout.notesOnFirstTile;
  const notesPage = uprightPage(layout);
  const notes = shared
    ? notesPages({ pattern, options, layout, pieces }, NOTES_WIDTH, NOTES_HEIGHT)
    : notesPages(
        { pattern, options, layout, pieces },
        notesPage.width - 2 * grid.margin,
        notesPage.height - 2 * grid.margin,
      );
  const [before, after] = shared ? [[], notes.slice(1)] : [notes, []];
  const firstTilePage = before.length + 1;
  const tiles = tilePages(layout, firstTilePage);
  const pageCount = before.length + tiles.length + after.length;
  const footer = `${isolated(options.title)} · ${options.hash.slice(0, 8)}`;
  const context = {
    layout,
    laid: laidPieces(
      layout,
      pieces,
      forms.map(({ drawn }) => drawn),
    ),
    pages: tiles,
    pageCount,
    footer,
  };

  const pages: DrawnPage[] = [];
  const addPage = (width: number, height: number, draw: (ink: Ink) => void): void => {
    const ink = new Ink(fonts);
    const k = POINTS_PER_MM;
    ink.within({ a: k, b: 0, c: 0, d: -k, e: 0, f: height * k }, () => draw(ink));
    pages.push({ width, height, content: ink.content });
  };
  const addNotes = (blocks: readonly NotesBlock[]): void =>
    addPage(notesPage.width, notesPage.height, (ink) =>
      drawNotes(ink, blocks, { x: grid.margin, y: grid.margin }, firstTilePage),
    );
  before.forEach(addNotes);
  for (const page of tiles) {
    addPage(grid.pageWidth, page.tile.height + 2 * grid.margin, (ink) => {
      drawTile(ink, page, context);
      if (shared && page === tiles[0]) drawNotes(ink, notes[0]!, { x: grid.margin, y: grid.margin }, firstTilePage);
    });
  }
  after.forEach(addNotes);
  return writeDocument({ pages, forms, fonts }, options);
};

const withClearance = ({ minX, minY, maxX, maxY }: Box): Box => ({
  minX: minX - CLEARANCE,
  minY: minY - CLEARANCE,
  maxX: maxX + CLEARANCE,
  maxY: maxY + CLEARANCE,
});

/** The notes always stand upright; on a roll they take no more length than they need. */
const uprightPage = ({ paper, grid }: PageLayout): { readonly width: number; readonly height: number } => ({
  width: Math.min(paper.width, paper.height),
  height: paper.roll ? NOTES_HEIGHT + 2 * grid.margin : Math.max(paper.width, paper.height),
});
