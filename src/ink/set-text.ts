import bidiModule, { type Bidi } from 'bidi-js';
import { Buffer as TextBuffer, Direction, shape } from 'harfbuzzjs';
import { typefaces, type Typeface, type Weight } from './typefaces.ts';

/** A glyph in its place on the line, in ems: x rightwards from the start of the line, y upwards from its base line. */
export interface SetGlyph {
  readonly face: Typeface;
  readonly id: number;
  readonly x: number;
  readonly y: number;
  /** What this glyph stands for; empty for the later glyphs of a cluster. */
  readonly text: string;
}

/** One line of text, shaped: `width` in ems, and the characters that no font has. */
export interface SetText {
  readonly glyphs: readonly SetGlyph[];
  readonly width: number;
  readonly missing: readonly string[];
}

interface Run {
  readonly text: string;
  readonly face: Typeface;
  readonly level: number;
}

// Its types describe an ES module, but Node loads its CommonJS build, whose whole export is the factory.
const bidi = (bidiModule as unknown as () => Bidi)();
const known = new Map<string, SetText>();

/**
 * Sets one line of text of any script: fonts chosen character by character, right-to-left parts in their order,
 * letters joined and marks placed as the script asks. Line breaks and control characters become spaces;
 * a character that no font has is set as an empty box and listed in `missing`.
 * Method: Unicode Bidirectional Algorithm (UAX 9); OpenType shaping by HarfBuzz.
 */
export const setText = (text: string, weight: Weight = 'regular'): SetText => {
  const key = `${weight}:${text}`;
  let line = known.get(key);
  if (!line) {
    line = setLine(cleaned(text), weight);
    known.set(key, line);
  }
  return line;
};

/** The name as a part of a longer line: characters beside it, digits above all, keep their own direction. */
export const isolated = (name: string): string => `\u2068${name}\u2069`;

/** Marks that only steer the direction of text: they have done their work once the levels are known. */
const STEERING = /[\u200E\u200F\u202A-\u202E\u2066-\u2069]/u;

const cleaned = (text: string): string =>
  text.replaceAll(/\p{Cs}/gu, '\uFFFD').replaceAll(/[\p{Cc}\u2028\u2029]+/gu, ' ');

const setLine = (text: string, weight: Weight): SetText => {
  const glyphs: SetGlyph[] = [];
  const missing: string[] = [];
  let x = 0;
  for (const run of inVisualOrder(runsOf(text, weight))) x = shapeRun(run, x, glyphs, missing);
  return { glyphs, width: x, missing: [...new Set(missing)] };
};

/** Characters that show nothing themselves but act on their neighbours: they stay with the font of the run. */
const JOINS_ALONG = /^[\p{M}\p{Cf}]$/u;

const runsOf = (text: string, weight: Weight): Run[] => {
  const levels = bidi.getEmbeddingLevels(text, 'auto').levels;
  const runs: { text: string; face: Typeface; level: number }[] = [];
  let index = 0;
  for (const character of text) {
    const level = levels[index]!;
    index += character.length;
    if (STEERING.test(character)) continue;
    const last = runs[runs.length - 1];
    const stays = last && (has(last.face, character) || JOINS_ALONG.test(character));
    const face = stays && !isLastResort(last.face) ? last.face : faceFor(character, weight);
    if (last && last.face === face && last.level === level) last.text += character;
    else runs.push({ text: character, face, level });
  }
  return runs;
};

const has = (face: Typeface, character: string): boolean =>
  face.font.nominalGlyph(character.codePointAt(0)!) !== undefined;

const isLastResort = (face: Typeface): boolean => face.name.includes('unifontex');

const faceFor = (character: string, weight: Weight): Typeface => {
  let first: Typeface | undefined;
  for (const face of typefaces(weight)) {
    first ??= face;
    if (has(face, character)) return face;
  }
  return first!;
};

/** Rule L2 of UAX 9 on whole runs: from the highest level down, every stretch at that level or above is turned round. */
const inVisualOrder = (runs: readonly Run[]): Run[] => {
  const order = [...runs];
  const highest = Math.max(0, ...runs.map(({ level }) => level));
  for (let level = highest; level > 0; level--) {
    for (let start = 0; start < order.length; start++) {
      let end = start;
      while (end < order.length && order[end]!.level >= level) end++;
      if (end > start) order.splice(start, end - start, ...order.slice(start, end).toReversed());
      start = end;
    }
  }
  return order;
};

const shapeRun = (run: Run, from: number, glyphs: SetGlyph[], missing: string[]): number => {
  const buffer = new TextBuffer();
  buffer.addText(run.text);
  buffer.guessSegmentProperties();
  buffer.setDirection(run.level % 2 === 1 ? Direction.RTL : Direction.LTR);
  shape(run.face.font, buffer);
  const infos = buffer.getGlyphInfosAndPositions();
  const starts = [...new Set(infos.map(({ cluster }) => cluster))].toSorted((a, b) => a - b);
  const told = new Set<number>();
  const em = run.face.unitsPerEm;
  let x = from;
  for (const info of infos) {
    const cluster = run.text.slice(info.cluster, starts[starts.indexOf(info.cluster) + 1]);
    const text = told.has(info.cluster) ? '' : cluster;
    told.add(info.cluster);
    if (info.codepoint === 0) missing.push(...cluster);
    glyphs.push({
      face: run.face,
      id: info.codepoint,
      x: x + (info.xOffset ?? 0) / em,
      y: (info.yOffset ?? 0) / em,
      text,
    });
    x += (info.xAdvance ?? 0) / em;
  }
  return x;
};
