import type { Path } from '../geometry/path.ts';
import { isClosed } from '../geometry/path.ts';
import { roundPath } from '../geometry/round-path.ts';
import { INK, PAPER, type Colour } from './colour.ts';
import { escapeXml } from './escape-xml.ts';
import { formatNumber } from './format-number.ts';
import { letterPaths } from './letter-paths.ts';
import type { LineStyle } from './line-style.ts';
import type { Mark, Scene, Words } from './scene.ts';
import { wordsBox } from './words-box.ts';
import { writePath } from './write-path.ts';

/** Letters are set as they are measured here; any other font of the reader's is narrower. */
const FONT = "'DejaVu Sans', Verdana, sans-serif";

/**
 * The picture as an SVG document at the size of its paper, one unit a millimetre; its root bears `data-picture`, so that the tool knows its own.
 * The same scene gives the same bytes. `letters` says whether text stays text or, where no font can be counted on, becomes outlines.
 */
export const sceneSvg = (scene: Scene, letters: 'text' | 'outlines' = 'text'): string => {
  const [width, height] = [formatNumber(scene.width), formatNumber(scene.height)];
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" data-picture="1" fill="none" stroke-linejoin="round" font-family="${FONT}">`,
    `  <title>${escapeXml(scene.title)}</title>`,
    `  <rect width="${width}" height="${height}" fill="${PAPER}"/>`,
    ...scene.marks.flatMap((mark) => markLines(mark, letters)).map((line) => `  ${line}`),
    '</svg>',
    '',
  ].join('\n');
};

const markLines = (mark: Mark, letters: 'text' | 'outlines'): string[] => {
  if (mark.kind === 'words') return [...backing(mark), letters === 'text' ? textLine(mark) : outlineLine(mark)];
  const of = mark.of === undefined ? '' : ` data-of="${escapeXml(mark.of)}"`;
  const look = mark.kind === 'area' ? `fill="${mark.colour}"` : strokeLook(mark.style);
  return [`<path${of} ${look} d="${dataOf(mark.path)}"/>`];
};

const dataOf = (path: Path): string => `${writePath(roundPath(path), ' ')}${isClosed(path) ? ' Z' : ''}`;

const strokeLook = ({ width, dash, roundEnds, grey = 0, colour }: LineStyle): string => {
  const dashes = dash === undefined ? '' : ` stroke-dasharray="${dash.map(formatNumber).join(' ')}"`;
  const ends = roundEnds ? ' stroke-linecap="round"' : '';
  return `stroke="${colour ?? greyColour(grey)}" stroke-width="${formatNumber(width)}"${dashes}${ends}`;
};

const greyColour = (grey: number): Colour => {
  const part = Math.round(grey * 255)
    .toString(16)
    .padStart(2, '0');
  return `#${part}${part}${part}`;
};

const backing = (words: Words): string[] => {
  if (words.backed !== true) return [];
  const points = wordsBox(words).map(({ x, y }) => `${formatNumber(x)},${formatNumber(y)}`);
  return [`<path fill="${PAPER}" d="M ${points.join(' L ')} Z"/>`];
};

const textLine = ({ text, at, size, weight, align = 'start', angle, colour = INK }: Words): string => {
  const [x, y] = [formatNumber(at.x), formatNumber(at.y)];
  const anchor = align === 'start' ? '' : ` text-anchor="${align}"`;
  const bold = weight === 'bold' ? ' font-weight="bold"' : '';
  const turned = angle === undefined ? '' : ` transform="rotate(${formatNumber((angle * 180) / Math.PI)} ${x} ${y})"`;
  return `<text fill="${colour}" font-size="${formatNumber(size)}"${bold}${anchor} x="${x}" y="${y}"${turned}>${escapeXml(text)}</text>`;
};

const outlineLine = (words: Words): string => `<path fill="${words.colour ?? INK}" d="${letterPaths(words)}"/>`;
