import type { Path } from '../geometry/path.ts';
import { movePoint, type Point } from '../geometry/point.ts';
import { roundPoint } from '../geometry/round-path.ts';
import { line } from '../geometry/segment.ts';
import { leftNormal, plus, scaled, unit, vectorTo } from '../geometry/vector.ts';
import { asDrawn } from '../pattern/mirror-panel.ts';
import { notchOnCutting } from '../pattern/notch-on-cutting.ts';
import type { Panel } from '../pattern/panel.ts';
import { escapeXml } from '../ink/escape-xml.ts';
import { formatNumber } from '../ink/format-number.ts';
import { labelPlaces, type LabelPlace } from './label-place.ts';
import { levelNamePlace } from './level-name-place.ts';
import { placePanels } from './place-panels.ts';
import { ART_STYLE, edgeStyle, MARK_STYLES, PANEL_STYLE, SMALL_TEXT_STYLE, TEXT_STYLE } from './sheet-style.ts';
import { settlePanel } from './settle-panel.ts';
import type { Sheet } from './sheet.ts';
import { writePath } from '../ink/write-path.ts';
import { writeRecord } from './write-record.ts';

const SEGMENT_LINE = '\n        ';

/** Length of an arrowhead in millimetres. */
const ARROW = 5;

const attribute = (name: string, value: string): string => ` ${name}="${escapeXml(value)}"`;

const straight = (from: Point, to: Point): string => writePath({ segments: [line(from, to)] }, ' ');

const edgeLines = (panel: Panel): string[] =>
  panel.edges.map(({ name, path, allowance, corners, text = writePath(path, SEGMENT_LINE) }) => {
    const width = allowance === undefined ? '' : attribute('data-allowance', `${formatNumber(allowance)}mm`);
    const finish = corners === undefined ? '' : attribute('data-corners', corners);
    return `<path data-kind="edge"${attribute('data-edge', name)}${width}${finish} d="${text}"/>`;
  });

const curve = (kind: 'cutting' | 'bone', path: Path): string =>
  `<path data-kind="${kind}" ${MARK_STYLES[kind]} d="${writePath(path, SEGMENT_LINE)}"/>`;

const mark = (kind: 'level' | 'notch' | 'slit' | 'grain', name: string, from: Point, to: Point): string =>
  `<path data-kind="${kind}"${name} ${MARK_STYLES[kind]} d="${straight(from, to)}"/>`;

const markLines = (panel: Panel): string[] => [
  ...(panel.cutting ? [curve('cutting', panel.cutting)] : []),
  ...panel.levels.map(({ name, y, fromX, toX }) =>
    mark('level', attribute('data-level', name), { x: fromX, y }, { x: toX, y }),
  ),
  ...panel.notches.map(({ edge, at, inner }) => mark('notch', attribute('data-edge', edge), at, inner)),
  ...(panel.slits ?? []).map(({ gusset, edge, at, to }) => {
    const names = `${attribute('data-gusset', gusset)}${edge === undefined ? '' : attribute('data-edge', edge)}`;
    return mark('slit', names, at, to);
  }),
  ...(panel.grain ? [mark('grain', '', panel.grain.from, panel.grain.to)] : []),
  ...panel.bones.map((bone) => curve('bone', bone)),
];

/** The notches carried on from the stitching line to the cutting line: whoever cuts the sheet snips them there. */
const snips = ({ notches, cutting }: Panel): string[] =>
  cutting === undefined
    ? []
    : notches.flatMap((notch) => {
        const end = notchOnCutting(notch, cutting);
        return end ? [`<path data-kind="label" ${MARK_STYLES.notch} d="${straight(roundPoint(end), notch.at)}"/>`] : [];
      });

/** Radius of the ring round a reinforcement point, in millimetres. */
const RING = 1.5;

const rings = ({ slits = [] }: Panel): string[] =>
  slits.map(
    ({ at: { x, y } }) =>
      `<circle data-kind="label" ${MARK_STYLES.ring} cx="${formatNumber(x)}" cy="${formatNumber(y)}" r="${RING}"/>`,
  );

/** Arrowheads on both ends of a grainline. */
const arrows = (from: Point, to: Point): string => {
  const along = scaled(unit(vectorTo(from, to)), ARROW);
  const aside = scaled(leftNormal(along), 0.4);
  const head = (tip: Point, into: number): string =>
    [plus(scaled(along, into), aside), undefined, plus(scaled(along, into), scaled(aside, -1))]
      .map((v) => (v ? movePoint(tip, v) : tip))
      .map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'} ${formatNumber(x)},${formatNumber(y)}`)
      .join(' ');
  return `<path data-kind="label" ${MARK_STYLES.arrow} d="${head(from, 1)} ${head(to, -1)}"/>`;
};

const textLines = (panel: Panel, { x, y, size, upright }: LabelPlace): string[] => {
  const turned = upright ? ` transform="rotate(-90 ${x} ${y})"` : '';
  return [
    ...snips(panel),
    ...rings(panel),
    `<text data-kind="label" ${TEXT_STYLE} font-size="${size}" text-anchor="middle" x="${x}" y="${y}"${turned}>${escapeXml(panel.name)}</text>`,
    ...(panel.grain ? [arrows(panel.grain.from, panel.grain.to)] : []),
    ...panel.levels.flatMap((level) => {
      const place = levelNamePlace(panel, level);
      if (!place) return [];
      const [left, base] = [formatNumber(place.x), formatNumber(place.y)];
      return [
        `<text data-kind="label" ${SMALL_TEXT_STYLE} font-size="${place.size}" x="${left}" y="${base}">${escapeXml(level.name)}</text>`,
      ];
    }),
  ];
};

const artLines = (art: string | undefined): string[] =>
  art === undefined || art === '' ? [] : [`<g data-kind="art" ${ART_STYLE}>`, ...art.split('\n'), '</g>'];

const panelLines = (panel: Panel, { x, y }: Point, label: LabelPlace): string[] => {
  const place = attribute('transform', `translate(${formatNumber(x)},${formatNumber(y)})`);
  const side = panel.side === undefined ? '' : attribute('data-side', panel.side);
  const waist = panel.gusset ? attribute('data-gusset-waist', formatNumber(panel.gusset.waistY)) : '';
  return [
    `  <g${attribute('id', panel.name)} data-kind="panel" data-line="${panel.line}"${side}${waist}${place} ${PANEL_STYLE} ${edgeStyle(panel)}>`,
    ...[...edgeLines(panel), ...markLines(panel), ...textLines(panel, label)].map((text) => `    ${text}`),
    ...artLines(panel.art),
    '  </g>',
  ];
};

/**
 * A sheet as SVG text: one user unit is one millimetre, panels side by side and lined up at the waist. Depends on its arguments alone,
 * so the same sheet gives the same bytes; edges with a text of their own keep it to the character. `all` are the panels of the pattern
 * where the sheet holds only some of them: its record is of all.
 */
export const writeSheet = (sheet: Sheet, all: readonly Panel[] = sheet.pattern.panels): string => {
  const { name, pieces, units } = sheet.pattern;
  const panels = sheet.pattern.panels.map((panel) => asDrawn(settlePanel(panel)));
  const placing = placePanels(panels, sheet.placing);
  const labels = labelPlaces(panels);
  const [width, height] = [formatNumber(placing.width), formatNumber(placing.height)];
  const part = sheet.part ? ` data-part="${sheet.part.number}/${sheet.part.of}"` : '';
  const record = writeRecord(
    sheet.record,
    all.map((panel) => panel.name),
  );
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" data-sheet="1"${attribute('data-name', name)} data-pieces="${pieces}" data-units="${units}"${part}>`,
    ...(record === '' ? [] : ['  <metadata data-kind="changes">', record, '  </metadata>']),
    ...panels.flatMap((panel, i) => panelLines(panel, placing.panels.get(panel.name)!, labels[i]!)),
    ...artLines(sheet.art),
    '</svg>',
    '',
  ].join('\n');
};
