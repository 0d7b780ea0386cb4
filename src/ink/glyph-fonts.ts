import { PDFContext, PDFHexString, PDFName, type PDFDict, type PDFRef } from 'pdf-lib';
import { inNumbers } from './pdf-number.ts';
import type { SetGlyph } from './set-text.ts';
import type { Typeface } from './typefaces.ts';

interface Entry {
  readonly id: number;
  readonly text: string;
  readonly advance: number;
}

interface GlyphFont {
  readonly name: string;
  readonly face: Typeface;
  readonly entries: Entry[];
}

/** Codes below this stay free: some readers treat them as control characters. */
const FIRST_CODE = 33;
const MOST_CODES = 256 - FIRST_CODE;

/** Where a glyph was put: the font resource, its code there, and the font's own advance in ems. */
export interface GlyphCode {
  readonly font: string;
  readonly code: number;
  readonly advance: number;
}

/**
 * The glyphs that a document uses, gathered while it is drawn and written at its end as Type 3 fonts:
 * each glyph once, as its outline, with the text it stands for, so that any shaped script prints and can be searched.
 * Method: ISO 32000-1, 9.6.5 (Type 3 fonts) and 9.10.3 (ToUnicode).
 */
export class GlyphFonts {
  readonly #fonts: GlyphFont[] = [];
  readonly #codes = new Map<Typeface, Map<string, GlyphCode>>();

  codeOf(glyph: SetGlyph): GlyphCode {
    const codes = this.#codes.get(glyph.face) ?? new Map<string, GlyphCode>();
    this.#codes.set(glyph.face, codes);
    const key = `${glyph.id}:${glyph.text}`;
    const found = codes.get(key) ?? this.#add(glyph);
    codes.set(key, found);
    return found;
  }

  #add({ face, id, text }: SetGlyph): GlyphCode {
    let font = this.#fonts.findLast((candidate) => candidate.face === face);
    if (!font || font.entries.length === MOST_CODES) {
      font = { name: `F${this.#fonts.length + 1}`, face, entries: [] };
      this.#fonts.push(font);
    }
    const advance = face.font.glyphHAdvance(id);
    font.entries.push({ id, text, advance });
    return { font: font.name, code: FIRST_CODE + font.entries.length - 1, advance: advance / face.unitsPerEm };
  }

  /** The `/Font` resources of everything that was drawn. */
  write(context: PDFContext): PDFDict {
    return context.obj(Object.fromEntries(this.#fonts.map((font) => [font.name, writeFont(font, context)])));
  }
}

const writeFont = ({ face, entries }: GlyphFont, context: PDFContext): PDFRef => {
  const em = face.unitsPerEm;
  const names = entries.map((_, index) => `g${FIRST_CODE + index}`);
  // Not compressed: setting up the compressor costs more time than a few hundred bytes are worth.
  const procedures = entries.map((entry) => context.register(context.stream(glyphProcedure(entry, face))));
  return context.register(
    context.obj({
      Type: 'Font',
      Subtype: 'Type3',
      FontBBox: [-em, -em, 3 * em, 2 * em],
      FontMatrix: [1 / em, 0, 0, 1 / em, 0, 0],
      CharProcs: Object.fromEntries(names.map((name, index) => [name, procedures[index]!])),
      Encoding: { Type: 'Encoding', Differences: [FIRST_CODE, ...names.map((name) => PDFName.of(name))] },
      FirstChar: FIRST_CODE,
      LastChar: FIRST_CODE + entries.length - 1,
      Widths: entries.map(({ advance }) => advance),
      Resources: {},
      ToUnicode: context.register(context.flateStream(toUnicode(entries))),
    }),
  );
};

const glyphProcedure = ({ id, advance }: Entry, face: Typeface): string => {
  const em = face.unitsPerEm;
  const lines = [inNumbers([advance, 0, -em, -em, 3 * em, 2 * em], 'd1')];
  let [x, y] = [0, 0];
  for (const { type, values } of face.font.glyphToJson(id)) {
    if (type === 'M') lines.push(inNumbers(values, 'm'));
    else if (type === 'L') lines.push(inNumbers(values, 'l'));
    else if (type === 'C') lines.push(inNumbers(values, 'c'));
    else if (type === 'Q') {
      const [hx = 0, hy = 0, ex = 0, ey = 0] = values;
      const raised = [
        x + (2 / 3) * (hx - x),
        y + (2 / 3) * (hy - y),
        ex + (2 / 3) * (hx - ex),
        ey + (2 / 3) * (hy - ey),
        ex,
        ey,
      ];
      lines.push(inNumbers(raised, 'c'));
    } else lines.push('h');
    if (values.length >= 2) [x, y] = values.slice(-2) as [number, number];
  }
  return [...lines, 'f'].join('\n');
};

const toUnicode = (entries: readonly Entry[]): string => {
  const pairs = entries.map(({ text }, index) => {
    const code = (FIRST_CODE + index).toString(16).padStart(2, '0');
    const units = Array.from({ length: text.length }, (_, at) => text.charCodeAt(at).toString(16).padStart(4, '0'));
    return `<${code}> <${units.join('') || '200b'}>`;
  });
  const blocks: string[] = [];
  for (let at = 0; at < pairs.length; at += 100) {
    const block = pairs.slice(at, at + 100);
    blocks.push(`${block.length} beginbfchar`, ...block, 'endbfchar');
  }
  return [
    '/CIDInit /ProcSet findresource begin 12 dict begin begincmap',
    '/CMapName /Adobe-Identity-UCS def /CMapType 2 def',
    '1 begincodespacerange <00> <ff> endcodespacerange',
    ...blocks,
    'endcmap CMapName currentdict /CMap defineresource pop end end',
  ].join('\n');
};

/** Text for the document's information, in UTF-16 so that any script survives. */
export const documentText = (text: string): PDFHexString => PDFHexString.fromText(text);
