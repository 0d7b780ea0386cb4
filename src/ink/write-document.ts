import { PDFDocument, PDFName, PDFString, type PDFContext, type PDFRef } from 'pdf-lib';
import type { Box } from '../geometry/box.ts';
import { documentText, type GlyphFonts } from '../ink/glyph-fonts.ts';

/** A PDF unit is 1/72 inch, an inch exactly 25.4 mm. */
export const POINTS_PER_MM = 72 / 25.4;

/** One page in points: `content` sets up its own millimetres. `width` and `height` in millimetres. */
export interface DrawnPage {
  readonly width: number;
  readonly height: number;
  readonly content: string;
}

/** What a document says of itself. */
export interface DocumentFacts {
  readonly title: string;
  /** Of the tool that made it. */
  readonly version: string;
  /** Without one the document bears no date, so that the same drawing gives the same bytes. */
  readonly date?: Date;
}

/** Everything that was drawn: pages, the panels that they show, and the glyphs that both use. */
export interface Drawn {
  readonly pages: readonly DrawnPage[];
  readonly forms: readonly {
    readonly name: string;
    readonly content: string;
    /** All that shows: what lies outside is cut off. */
    readonly box: Box;
  }[];
  readonly fonts: GlyphFonts;
}

/** The bytes of the document: the same for the same drawing, as nothing in it tells the time unless a date was given. */
export const writeDocument = async (drawn: Drawn, facts: DocumentFacts): Promise<Uint8Array> => {
  const document = await newDocument(facts);
  writePages(document, drawn);
  // The producer stands in plain sight near the beginning, so that the tool knows its own pages again.
  return document.save({ addDefaultPage: false, updateFieldAppearances: false, useObjectStreams: false });
};

const newDocument = async (facts: DocumentFacts): Promise<PDFDocument> => {
  const document = await PDFDocument.create({ updateMetadata: false });
  const { context, catalog } = document;
  const info = context.obj({
    Title: documentText(facts.title),
    Producer: PDFString.of(`Staywright ${facts.version}`),
  });
  context.trailerInfo.Info = context.register(info);
  if (facts.date) {
    document.setCreationDate(facts.date);
    document.setModificationDate(facts.date);
  }
  catalog.set(PDFName.of('ViewerPreferences'), context.obj({ PrintScaling: 'None', DisplayDocTitle: true }));
  return document;
};

const writePages = (document: PDFDocument, { pages, forms, fonts }: Drawn): void => {
  const { context } = document;
  const Font = fonts.write(context);
  const inForms = context.register(context.obj({ Font }));
  const XObject = context.obj(Object.fromEntries(forms.map((form) => [form.name, writeForm(context, form, inForms)])));
  const inPages = context.register(context.obj({ Font, XObject }));
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
      BBox: [box.minX, box.minY, box.maxX, box.maxY],
      Resources: resources,
    }),
  );
