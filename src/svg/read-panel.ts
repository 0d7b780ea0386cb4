import { StaywrightError } from '../errors.ts';
import { signedArea } from '../geometry/area.ts';
import { pathBox } from '../geometry/box.ts';
import { isClosed, pathEnd, pathStart, type Path } from '../geometry/path.ts';
import { samePoint, type Point } from '../geometry/point.ts';
import {
  CORNER_STYLES,
  type Edge,
  type Grain,
  type Level,
  type LineKind,
  type Notch,
  type Panel,
  SIDES,
  type Slit,
} from '../pattern/panel.ts';
import { asDrawn } from '../pattern/mirror-panel.ts';
import { cleanMarkup } from './clean-markup.ts';
import { formatNumber } from '../ink/format-number.ts';
import { MOST_PANEL_SIZE } from './limits.ts';
import { sheetPath } from './sheet-path.ts';
import { isSvg, placeOf, rawAttribute, type XmlDocument, type XmlNode } from './xml-document.ts';

const HEIGHT = /^-?\d+(?:\.\d+)?$/;
const WIDTH = /^(\d+(?:\.\d+)?)mm$/;

/** Content that is written anew each time or describes nothing drawn. */
const LEFT_OUT = new Set(['title', 'desc', 'metadata', 'defs', 'style']);

const showPoint = ({ x, y }: Point): string => `${formatNumber(x)},${formatNumber(y)}`;

/** Art kept as lines of cleaned markup: of `g` elements that hold it, their content. */
export const artOf = (nodes: readonly XmlNode[]): { readonly art?: string } => {
  const parts = nodes.flatMap((node) => (node.attributes['data-kind'] === 'art' ? node.children : [node]));
  const lines = parts.map(cleanMarkup).filter((markup) => markup !== '');
  return lines.length === 0 ? {} : { art: lines.join('\n') };
};

/**
 * Reads one panel of a sheet and holds it to the rules: edges end to end, closed and clockwise, levels straight across, notches and openings on
 * named edges, slits straight down. A panel of the right is turned to the frame in which all are held. Throws an `input` error with the place of the first break.
 */
export const readPanel = (document: XmlDocument, group: XmlNode): Panel => {
  const name = group.attributes['id'] ?? '';
  const placed = (node: XmlNode): string => placeOf(document, node.offset);
  const fail = (node: XmlNode, message: string, hint?: string): never => {
    throw new StaywrightError('input', `panel ${name}: ${message}`, {
      where: placed(node),
      ...(hint === undefined ? {} : { hint }),
    });
  };
  if (name === '') fail(group, 'it has no name (id)');
  const line = group.attributes['data-line'];
  if (line !== 'cutting' && line !== 'stitching') fail(group, `data-line must be 'cutting' or 'stitching'`);

  const sideText = group.attributes['data-side'];
  const side = SIDES.find((known) => known === sideText);
  if (sideText !== undefined && side === undefined) fail(group, `data-side must be ${SIDES.join(' or ')}`);

  const waistText = group.attributes['data-gusset-waist'];
  if (waistText !== undefined && !HEIGHT.test(waistText)) fail(group, `data-gusset-waist must be a number like -38.1`);

  const edges: { readonly edge: Edge; readonly node: XmlNode }[] = [];
  const levels: Level[] = [];
  const notches: Notch[] = [];
  const slits: Slit[] = [];
  const bones: Path[] = [];
  const art: XmlNode[] = [];
  let grain: Grain | undefined;
  let cutting: Path | undefined;

  const named = (node: XmlNode, attribute: string, what: string): string =>
    node.attributes[attribute] || fail(node, `${what} has no ${attribute}`);
  const pathOf = (node: XmlNode, what: string): Path => sheetPath(document, node, `panel ${name}: ${what}`);
  const endsOf = (node: XmlNode, what: string): { from: Point; to: Point } => {
    const { segments } = pathOf(node, what);
    const [only] = segments;
    if (segments.length !== 1 || only!.kind !== 'line') fail(node, `${what} must be one straight line`);
    return { from: only!.start, to: only!.end };
  };

  const readEdge = (node: XmlNode): void => {
    const edge = named(node, 'data-edge', 'an edge');
    if (edges.some((other) => other.edge.name === edge)) fail(node, `two edges are named ${edge}`);
    const width = node.attributes['data-allowance'];
    const millimetres = width === undefined ? undefined : WIDTH.exec(width)?.[1];
    if (width !== undefined && millimetres === undefined)
      fail(node, `edge ${edge}: data-allowance must be like '15mm'`);
    const finish = node.attributes['data-corners'];
    const corners = CORNER_STYLES.find((style) => style === finish);
    if (finish !== undefined && corners === undefined)
      fail(node, `edge ${edge}: data-corners must be ${CORNER_STYLES.join(', ')}`);
    edges.push({
      node,
      edge: {
        name: edge,
        path: pathOf(node, `edge ${edge}`),
        text: rawAttribute(document, node, 'd')!.replace(/\r\n?/g, '\n'),
        ...(millimetres === undefined ? {} : { allowance: Number(millimetres) }),
        ...(corners === undefined ? {} : { corners }),
      },
    });
  };
  const readLevel = (node: XmlNode): void => {
    const level = named(node, 'data-level', 'a level');
    if (levels.some((other) => other.name === level)) fail(node, `two levels are named ${level}`);
    const { from, to } = endsOf(node, `level ${level}`);
    if (from.y !== to.y) fail(node, `level ${level} is not horizontal`);
    levels.push({ name: level, y: from.y, fromX: Math.min(from.x, to.x), toX: Math.max(from.x, to.x) });
  };

  for (const node of group.children) {
    if (!isSvg(node) || LEFT_OUT.has(node.local)) continue;
    switch (node.attributes['data-kind']) {
      case 'edge':
        readEdge(node);
        break;
      case 'level':
        readLevel(node);
        break;
      case 'notch': {
        const { from, to } = endsOf(node, 'a notch');
        notches.push({ edge: named(node, 'data-edge', 'a notch'), at: from, inner: to });
        break;
      }
      case 'slit': {
        const { from, to } = endsOf(node, 'a slit');
        const edge = node.attributes['data-edge'];
        if (edge === undefined && (from.x !== to.x || from.y >= to.y)) fail(node, 'a slit must run straight down');
        const gusset = named(node, 'data-gusset', 'a slit');
        slits.push({ gusset, ...(edge === undefined ? {} : { edge }), at: from, to });
        break;
      }
      case 'grain':
        if (grain) fail(node, 'it has two grainlines');
        grain = endsOf(node, 'the grainline');
        break;
      case 'bone':
        bones.push(pathOf(node, 'a bone'));
        break;
      case 'cutting':
        if (cutting) fail(node, 'it has two cutting lines');
        cutting = pathOf(node, 'the cutting line');
        if (!isClosed(cutting)) fail(node, 'the cutting line is not closed');
        break;
      case 'label':
        break;
      case 'art':
      case undefined:
        art.push(node);
        break;
      default:
        fail(node, `unknown data-kind '${node.attributes['data-kind']?.slice(0, 20)}'`);
    }
  }

  if (edges.length === 0) fail(group, 'it has no edges');
  edges.forEach(({ edge, node }, i) => {
    const next = edges[(i + 1) % edges.length]!.edge;
    const [end, start] = [pathEnd(edge.path), pathStart(next.path)];
    if (samePoint(end, start)) return;
    fail(node, `edge ${edge.name} ends at ${showPoint(end)}, but edge ${next.name} begins at ${showPoint(start)}`);
  });
  const outline = { segments: edges.flatMap(({ edge }) => edge.path.segments) };
  if (signedArea(outline) <= 0) fail(group, 'its edges must run clockwise round it');
  const { minX, minY, maxX, maxY } = pathBox(outline);
  const size = Math.max(maxX - minX, maxY - minY);
  if (size > MOST_PANEL_SIZE) fail(group, `it is ${Math.round(size / 1000)} m across`);
  const stray = notches.find(({ edge }) => !edges.some((other) => other.edge.name === edge));
  if (stray) fail(group, `a notch is on an edge ${stray.edge}, which is not there`);
  const lost = slits.find(({ edge }) => edge !== undefined && !edges.some((other) => other.edge.name === edge));
  if (lost) fail(group, `the opening for ${lost.gusset} is on an edge ${lost.edge}, which is not there`);
  const isGusset = edges.length === 3 && edges.some(({ edge }) => edge.name === 'bottom');
  if (waistText !== undefined && !isGusset) fail(group, 'a gusset has three edges, one of them bottom');

  return asDrawn({
    name,
    line: line as LineKind,
    ...(side ? { side } : {}),
    ...(waistText === undefined ? {} : { gusset: { waistY: Number(waistText) } }),
    edges: edges.map(({ edge }) => edge),
    levels: levels.toSorted((a, b) => a.y - b.y),
    notches,
    ...(slits.length > 0 ? { slits } : {}),
    ...(grain ? { grain } : {}),
    bones,
    ...(cutting ? { cutting } : {}),
    ...artOf(art),
  });
};
