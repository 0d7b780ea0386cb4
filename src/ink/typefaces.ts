import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { Blob, Face, Font } from 'harfbuzzjs';
import { unwrapFont } from './unwrap-font.ts';

/** One open font: `unitsPerEm` font units make the size it is set in. */
export interface Typeface {
  readonly name: string;
  readonly font: Font;
  readonly unitsPerEm: number;
}

export type Weight = 'regular' | 'bold';

const packages = createRequire(import.meta.url);

/** Upright sans-serif: Latin, Greek, Cyrillic, Armenian, Georgian, Arabic, Hebrew, Lao and signs. */
const MAIN: Readonly<Record<Weight, string>> = {
  regular: '@fontsource/dejavu-sans/files/dejavu-sans-latin-400-normal.woff',
  bold: '@fontsource/dejavu-sans/files/dejavu-sans-latin-700-normal.woff',
};

/** Scripts whose letters join or stack, then a plain face with a glyph for nearly every character there is. */
const FALLBACKS = [
  '@fontsource/noto-sans-devanagari/files/noto-sans-devanagari-devanagari-400-normal.woff',
  '@fontsource/noto-sans-thai/files/noto-sans-thai-thai-400-normal.woff',
  '@fontsource/unifontex/files/unifontex-latin-400-normal.woff',
];

const opened = new Map<string, Typeface>();

const open = (name: string): Typeface => {
  let face = opened.get(name);
  if (!face) {
    const bytes = unwrapFont(readFileSync(packages.resolve(name)));
    const outlines = new Face(new Blob(bytes), 0);
    face = { name, font: new Font(outlines), unitsPerEm: outlines.upem };
    opened.set(name, face);
  }
  return face;
};

/** The faces to try for a text, the best first. Each is read from its installed package only when it is reached. */
export function* typefaces(weight: Weight): Generator<Typeface> {
  yield open(MAIN[weight]);
  for (const name of FALLBACKS) yield open(name);
}
