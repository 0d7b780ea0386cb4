import { joinBoxes, pathBox } from '../geometry/box.ts';
import type { Path } from '../geometry/path.ts';
import { roundPath } from '../geometry/round-path.ts';
import type { Line } from '../geometry/segment.ts';
import { translatePath } from '../geometry/transform-path.ts';
import { vector } from '../geometry/vector.ts';
import { escapeXml } from '../ink/escape-xml.ts';
import { formatNumber } from '../ink/format-number.ts';
import { ART_STYLE, MARK_STYLES, OUTLINE_STYLE, PANEL_STYLE } from './sheet-style.ts';
import { writePath } from '../ink/write-path.ts';

/** One panel of a plain drawing, in millimetres. */
export interface DrawnPanel {
  readonly id: string;
  /** Closed lines, the outermost first. */
  readonly outlines: readonly Path[];
  readonly levels: readonly { readonly name: string; readonly line: Line }[];
  readonly notches: readonly Line[];
  readonly grain: readonly Line[];
  /** Other lines, open or closed. */
  readonly art: readonly Path[];
}

/** Left free round a drawing, in millimetres. */
const MARGIN = 10;

const SEGMENT_LINE = '\n      ';

const pathsOf = (panel: DrawnPanel): Path[] => [
  ...panel.outlines,
  ...[...panel.levels.map(({ line }) => line), ...panel.notches, ...panel.grain].map((line) => ({ segments: [line] })),
  ...panel.art,
];

/**
 * A plain drawing as SVG text, one unit a millimetre, ready to be labelled: outlines that bear the panel's id, marks in the words of a
 * sheet, all other lines as art. It is moved so that all of it lies within the page; the same drawing gives the same bytes.
 */
export const writeDrawing = (name: string, panels: readonly DrawnPanel[]): string => {
  const box = joinBoxes(panels.flatMap(pathsOf).map(pathBox));
  const shift = vector(MARGIN - box.minX, MARGIN - box.minY);
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY].map((size) => formatNumber(size + 2 * MARGIN));
  const drawn = (path: Path, newline: string): string => writePath(roundPath(translatePath(path, shift)), newline);
  const closed = (path: Path): string => `${drawn(path, SEGMENT_LINE)} Z`;
  const straight = (line: Line): string => drawn({ segments: [line] }, ' ');

  const panelLines = ({ id, outlines, levels, notches, grain, art }: DrawnPanel): string[] => [
    '  <g data-kind="traced">',
    ...outlines.map(
      (path, at) =>
        `<path id="${escapeXml(at === 0 ? id : `${id}-within-${at}`)}" ${OUTLINE_STYLE} d="${closed(path)}"/>`,
    ),
    ...levels.map(
      (level) =>
        `<path data-kind="level" data-level="${escapeXml(level.name)}" ${MARK_STYLES.level} d="${straight(level.line)}"/>`,
    ),
    ...notches.map((notch) => `<path data-kind="notch" ${MARK_STYLES.notch} d="${straight(notch)}"/>`),
    ...grain.map((one) => `<path data-kind="grain" class="grain" ${MARK_STYLES.grain} d="${straight(one)}"/>`),
    ...(art.length === 0 ? [] : [`<g data-kind="art" ${ART_STYLE}>`, ...art.map(artLine), '</g>']),
    '  </g>',
  ];
  const artLine = (path: Path): string =>
    `<path fill="none" stroke="#777" stroke-width="0.25" d="${drawn(path, ' ')}"/>`;

  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" data-drawing="1" data-name="${escapeXml(name)}">`,
    `  <g ${PANEL_STYLE}>`,
    ...panels.flatMap(panelLines).map((text) => (/^\s/.test(text) ? `  ${text}` : `      ${text}`)),
    '  </g>',
    '</svg>',
    '',
  ].join('\n');
};
