import { escapeXml } from '../ink/escape-xml.ts';
import { formatNumber } from '../ink/format-number.ts';
import { chordAt, type Chord } from '../pattern/chord.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { LevelRef } from '../pattern/level-ref.ts';
import { levelYIfAny } from '../pattern/level-y.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';

/** What is written on a level line of the first panel below its width, a line each. */
export interface DrawnLevel {
  readonly level: LevelRef;
  readonly says?: readonly string[];
}

/** The pattern with each level drawn across every panel as artwork, its width written on it; the geometry stays as it was. */
export const drawMeasures = (pattern: Pattern, levels: readonly DrawnLevel[], units: Units): Pattern => ({
  ...pattern,
  panels: pattern.panels.map((panel, at) => {
    const lines = levels.map((drawn) => measureMarkup(panel, at === 0 ? drawn : { level: drawn.level }, units));
    return { ...panel, art: `${panel.art ?? ''}<g class="measures">${lines.join('')}</g>` };
  }),
});

/** Sizes in millimetres; the width of a letter is a share of its size, for setting text without reading a font. */
const SIZE = 3;
export const LEADING = 4;
const LETTER_WIDTH = 0.56;
const INK = 'fill="#000" stroke="none" font-family="sans-serif"';

/** Figures stand below the line, on white of their own that parts them from a grainline; the name of the level stands above it. */
const measureMarkup = (panel: Panel, { level, says = [] }: DrawnLevel, units: Units): string => {
  const y = levelYIfAny(panel, level);
  const chord = y === undefined ? undefined : drawnChord(panel, y);
  if (y === undefined || chord === undefined) return '';
  const lines = [formatLength(chord.width, units), ...says];
  const middle = (chord.fromX + chord.toX) / 2;
  const wide = Math.min(Math.max(...lines.map((line) => line.length)) * LETTER_WIDTH * SIZE, chord.width - 2);
  const isNamed = panel.levels.some(({ name }) => name === level.text);
  return [
    `<rect x="${formatNumber(middle - wide / 2)}" y="${formatNumber(y + 1)}" width="${formatNumber(wide)}" height="${formatNumber(lines.length * LEADING)}" fill="#fff" stroke="none"/>`,
    `<path d="M ${formatNumber(chord.fromX)} ${formatNumber(y)} L ${formatNumber(chord.toX)} ${formatNumber(y)}" fill="none" stroke="#000" stroke-width="0.3"/>`,
    ...(isNamed ? [] : [textMarkup(level.text, chord.fromX + 3, y - 1.5, 'start')]),
    ...lines.map((line, at) => textMarkup(line, middle, y + (at + 1) * LEADING, 'middle')),
  ].join('');
};

/** Artwork lies as the panel is drawn: on a panel of the right, the other way round than it is held. */
const drawnChord = (panel: Panel, y: number): Chord | undefined => {
  const chord = chordAt(panel, y);
  if (chord === undefined || panel.side !== 'right') return chord;
  return { fromX: 0 - chord.toX, toX: 0 - chord.fromX, width: chord.width };
};

/** One line of black letters, in the panel's coordinates as it is drawn. */
export const textMarkup = (words: string, x: number, y: number, anchor: 'start' | 'middle' | 'end'): string =>
  `<text ${INK} font-size="${SIZE}" text-anchor="${anchor}" x="${formatNumber(x)}" y="${formatNumber(y)}">${escapeXml(words)}</text>`;
