import { chordAt } from '../pattern/chord.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { LevelRef } from '../pattern/level-ref.ts';
import { levelY } from '../pattern/level-y.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';

/** What is written on one level line; the panel's own width where it says nothing else. */
export interface DrawnLevel {
  readonly level: LevelRef;
  readonly says?: string;
}

/** The pattern with each level drawn across every panel as artwork, its width written on it; the geometry stays as it was. */
export const drawMeasures = (pattern: Pattern, levels: readonly DrawnLevel[], units: Units): Pattern => ({
  ...pattern,
  panels: pattern.panels.map((panel, at) => {
    const lines = levels.map((drawn) => measureMarkup(panel, at === 0 ? drawn : { level: drawn.level }, units));
    return { ...panel, art: `${panel.art ?? ''}<g class="measures">${lines.join('')}</g>` };
  }),
});

const measureMarkup = (panel: Panel, { level, says }: DrawnLevel, units: Units): string => {
  const y = levelY(panel, level);
  const chord = chordAt(panel, y);
  if (chord === undefined) return '';
  const width = `${level.text} ${formatLength(chord.width, units)}`;
  const lines = says === undefined ? [width] : [width, says];
  const [left, right, middle, height] = [chord.fromX, chord.toX, (chord.fromX + chord.toX) / 2, y].map(plain);
  const texts = lines.map(
    (line, at) =>
      `<text x="${middle}" y="${plain(Number(height) - 2 + at * 6)}" font-size="4" text-anchor="middle">${escaped(line)}</text>`,
  );
  return `<path d="M ${left} ${height} L ${right} ${height}" fill="none" stroke="#000" stroke-width="0.3"/>${texts.join('')}`;
};

const plain = (value: number): string => String(Math.round(value * 1000) / 1000 || 0);

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
