import { PDFDocument, PDFName, PDFString, type PDFContext, type PDFDict, type PDFRef } from 'pdf-lib';
import { StaywrightError } from '../errors.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { boxOf } from './box-of.ts';
import { drawPanel } from './draw-panel.ts';
import { drawTile, formName, laidPieces } from './draw-tile.ts';
import { documentText, GlyphFonts } from './glyph-fonts.ts';
import { Ink } from './ink.ts';
import { layoutPages } from './layout-pages.ts';
import { drawNotes, notesPages, type NotesBlock } from './notes.ts';
import { pageJoints } from './page-joints.ts';
import { CLEARANCE, NOTES_HEIGHT, NOTES_WIDTH, type PageLayout, type Piece } from './page-layout.ts';
import { tilePages } from './page-names.ts';
import { panelShape } from './panel-shape.ts';
import type { PrintOptions } from './print-options.ts';
import { isolated } from './set-text.ts';

const POINTS_PER_MM = 72 / 25.4;

/**
 * The pattern as a PDF at true scale, in pages to glue together, with its notes at the front.
 * Each panel is drawn once and shown on every page that it touches; 1 mm is 72/25.4 points; readers are told not to scale.
 * The same pattern and options give the same bytes.
 * Throws a usage error where margin and overlap leave no room, an input error for a pattern without panels.
 */
export const printPattern = async (pattern: Pattern, options: PrintOptions): Promise<Uint8Array> => {
  if (pattern.panels.length === 0) {
    throw new StaywrightError('input', 'there are no panels to print', {
      hint: 'staywright check tells what a sheet holds',
    });
  }
  const pieces: Piece[] = pattern.panels.map((panel) => ({ outline: panelShape(panel) }));
  const layout = layoutPages(pieces, options);
  const { grid } = layout;
  const document = await newDocument(options);
  const fonts = new GlyphFonts();
  const joints = pageJoints(layout);
  const forms = pattern.panels.map((panel, index) => {
    const ink = new Ink(fonts);
    drawPanel(ink, panel, { pattern, hash: options.hash, joints: joints.get(index) ?? [] });
    return { name: formName(index), content: ink.content, box: boxOf(pieces[index]!.outline) };
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
  const context = { layout, laid: laidPieces(layout, pieces), pages: tiles, pageCount, footer };

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
  writePages(document, { pages, forms, fonts });
  // The producer stands in plain sight near the beginning, so that the tool knows its own pages again.
  return document.save({ addDefaultPage: false, updateFieldAppearances: false, useObjectStreams: false });
};

const newDocument = async (options: PrintOptions): Promise<PDFDocument> => {
  const document = await PDFDocument.create({ updateMetadata: false });
  const { context, catalog } = document;
  const info = context.obj({
    Title: documentText(options.title),
    Producer: PDFString.of(`Staywright ${options.version}`),
  });
  context.trailerInfo.Info = context.register(info);
  if (options.date) {
    document.setCreationDate(options.date);
    document.setModificationDate(options.date);
  }
  catalog.set(PDFName.of('ViewerPreferences'), context.obj({ PrintScaling: 'None', DisplayDocTitle: true }));
  return document;
};

/** The notes always stand upright; on a roll they take no more length than they need. */
const uprightPage = ({ paper, grid }: PageLayout): { readonly width: number; readonly height: number } => ({
  width: Math.min(paper.width, paper.height),
  height: paper.roll ? NOTES_HEIGHT + 2 * grid.margin : Math.max(paper.width, paper.height),
});

interface DrawnPage {
  readonly width: number;
  readonly height: number;
  readonly content: string;
}

interface Drawn {
  readonly pages: readonly DrawnPage[];
  readonly forms: readonly {
    readonly name: string;
    readonly content: string;
    readonly box: ReturnType<typeof boxOf>;
  }[];
  readonly fonts: GlyphFonts;
}

const writePages = (document: PDFDocument, { pages, forms, fonts }: Drawn): void => {
  const { context } = document;
  const Font = fonts.write(context);
  const inForms = context.register(context.obj({ Font }));
  const XObject = context.obj(Object.fromEntries(forms.map((form) => [form.name, writeForm(context, form, inForms)])));
  const resources: PDFDict = context.obj({ Font, XObject });
  const inPages = context.register(resources);
  for (const { width, height, content } of pages) {
    const page = document.addPage([width * POINTS_PER_MM, height * POINTS_PER_MM]);
    page.node.set(PDFName.of('Resources'), inPages);
    page.node.set(PDFName.Contents, context.register(context.flateStream(content)));
  }
};

const writeForm = (context: PDFContext, { content, box }: Drawn['forms'][number], resources: PDFRef): PDFRef =>
  context.register(
    context.flateStream(content, {
      Type: 'XObject',
      Subtype: 'Form',
      BBox: [box.minX - CLEARANCE, box.minY - CLEARANCE, box.maxX + CLEARANCE, box.maxY + CLEARANCE],
      Resources: resources,
    }),
  );
