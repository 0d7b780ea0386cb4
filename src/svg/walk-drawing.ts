/**
 * Walks a drawing as a renderer would and collects what it draws: shapes as paths in millimetres, text and pictures as cleaned markup.
 * Definitions, hidden elements and elements that draw nothing are passed over; clips and masks do not cut; style sheets are not read.
 */
import { StaywrightError } from '../errors.ts';
import { compose, translation, type Matrix } from '../geometry/matrix.ts';
import type { Path } from '../geometry/path.ts';
import { point } from '../geometry/point.ts';
import { transformPoint } from '../geometry/transform-path.ts';
import type { Artwork } from '../pattern/drawing.ts';
import { cleanMarkup } from './clean-markup.ts';
import { cssLength, type LengthContext, type PercentOf } from './css-length.ts';
import { drawShape, SHAPES, type LengthOf } from './draw-shape.ts';
import { escapeXml } from './escape-xml.ts';
import { MOST_DEPTH, MOST_USED_ELEMENTS } from './limits.ts';
import { Pen } from './pen.ts';
import { inheritLook, property } from './properties.ts';
import { rootViewport } from './root-viewport.ts';
import { transformList } from './transform-list.ts';
import { readViewBox, viewBoxMatrix } from './view-box.ts';
import { isSvg, placeInAttribute, placeOf, type XmlDocument, type XmlNode } from './xml-document.ts';

/** One stroke of a shape, in millimetres. */
export interface Piece {
  readonly path: Path;
  readonly closed: boolean;
  readonly id?: string;
  /** The nearest group with an id. */
  readonly group?: string;
  readonly names: readonly string[];
  readonly where: string;
  /** Which element drew it: pieces of one element share it. */
  readonly element: number;
}

export interface Walked {
  readonly pieces: readonly Piece[];
  readonly artwork: readonly Artwork[];
  readonly warnings: readonly string[];
}

interface Context {
  readonly matrix: Matrix;
  readonly lengths: LengthContext;
  readonly names: readonly string[];
  readonly group?: string;
  readonly look: Readonly<Record<string, string>>;
  readonly hidden: boolean;
  readonly depth: number;
  /** The `use` that is being drawn: ids below it are not its own, since they stand for each copy. */
  readonly using: boolean;
}

const CONTAINERS = new Set(['g', 'a', 'svg']);

const decimals6 = (value: number): string => String(Math.round(value * 1e6) / 1e6 + 0);

/** What an element may be called by. */
const namesOf = (node: XmlNode): string[] => {
  const { id, class: classes, 'data-level': level, 'data-name': name } = node.attributes;
  return [id, ...(classes?.split(/\s+/) ?? []), level, name, node.label].filter(
    (text) => text !== undefined && text !== '',
  ) as string[];
};

export const walkDrawing = (document: XmlDocument, scale: Matrix): Walked => {
  const pieces: Piece[] = [];
  const artwork: Artwork[] = [];
  const warnings = new Set<string>();
  const byId = new Map<string, XmlNode>();
  const inUse = new Set<XmlNode>();
  let used = 0;
  let elements = 0;

  const index = (node: XmlNode): void => {
    const { id } = node.attributes;
    if (id !== undefined && !byId.has(id)) byId.set(id, node);
    node.children.forEach(index);
  };
  const placed = (node: XmlNode): string => placeOf(document, node.offset);

  const lengthsOf =
    (node: XmlNode, { lengths }: Context): LengthOf =>
    (name, percentOf) => {
      const text = property(node, name);
      if (text === undefined || text.trim() === '' || text.trim() === 'auto') return undefined;
      return cssLength(text, percentOf, lengths, placeInAttribute(document, node, name, 0));
    };

  const fontSizeWithin = (node: XmlNode, { lengths }: Context): number => {
    const text = property(node, 'font-size');
    if (text === undefined || !/^[+.\d]/.test(text)) return lengths.fontSize;
    return cssLength(text, 'font', lengths, placed(node));
  };

  const enter = (node: XmlNode, outer: Context): Context => {
    const transform = property(node, 'transform');
    const own =
      transform === undefined ? undefined : transformList(transform, placeInAttribute(document, node, 'transform', 0));
    const visibility = property(node, 'visibility');
    return {
      ...outer,
      matrix: own ? compose(outer.matrix, own) : outer.matrix,
      lengths: { ...outer.lengths, fontSize: fontSizeWithin(node, outer) },
      look: inheritLook(outer.look, node),
      hidden: visibility === undefined ? outer.hidden : visibility !== 'visible',
      depth: outer.depth + 1,
    };
  };

  const asGroup = (node: XmlNode, within: Context): Context => {
    const { id } = node.attributes;
    const names = [...namesOf(node), ...within.names];
    return id === undefined || id === '' || within.using ? { ...within, names } : { ...within, names, group: id };
  };

  const walk = (node: XmlNode, outer: Context): void => {
    if (!isSvg(node) || property(node, 'display') === 'none') return;
    if (outer.depth > 2 * MOST_DEPTH) {
      throw new StaywrightError('input', `drawn over ${2 * MOST_DEPTH} elements deep`, { where: placed(node) });
    }
    if (inUse.size > 0) used += 1;
    if (used > MOST_USED_ELEMENTS) {
      throw new StaywrightError('input', `'use' draws over ${MOST_USED_ELEMENTS} elements`, { where: placed(node) });
    }
    elements += 1;
    const { local } = node;
    if (SHAPES.has(local)) drawPieces(node, enter(node, outer));
    else if (local === 'svg') walkNested(node, enter(node, outer), lengthsOf(node, outer));
    else if (CONTAINERS.has(local)) walkChildren(node, asGroup(node, enter(node, outer)));
    else if (local === 'switch') walkSwitch(node, asGroup(node, enter(node, outer)));
    else if (local === 'use') walkUse(node, enter(node, outer));
    else if (local === 'text' || local === 'image') keepArtwork(node, outer);
  };

  const walkChildren = (node: XmlNode, within: Context): void => {
    for (const child of node.children) walk(child, within);
  };

  /** The first child that needs no extension, as a program without extensions draws it. */
  const walkSwitch = (node: XmlNode, within: Context): void => {
    const chosen = node.children.find(
      (child) =>
        isSvg(child) && child.local !== 'foreignObject' && child.attributes['requiredExtensions'] === undefined,
    );
    if (chosen) walk(chosen, within);
  };

  /** Content with a viewport of its own: nested drawings and symbols. Nothing is clipped. */
  const walkViewport = (node: XmlNode, within: Context, width: number, height: number): void => {
    if (width <= 0 || height <= 0) return;
    const box = readViewBox(node.attributes['viewBox'], placed(node));
    const aspect = node.attributes['preserveAspectRatio'];
    const matrix = box
      ? compose(within.matrix, viewBoxMatrix(box, { width, height }, aspect, placed(node)))
      : within.matrix;
    const size = box ?? { width, height };
    walkChildren(node, { ...within, matrix, lengths: { ...within.lengths, width: size.width, height: size.height } });
  };

  const walkNested = (node: XmlNode, within: Context, lengthOf: LengthOf, use?: LengthOf): void => {
    const [x, y] = [lengthOf('x', 'width') ?? 0, lengthOf('y', 'height') ?? 0];
    const width = use?.('width', 'width') ?? lengthOf('width', 'width') ?? within.lengths.width;
    const height = use?.('height', 'height') ?? lengthOf('height', 'height') ?? within.lengths.height;
    const moved = { ...within, matrix: compose(within.matrix, translation(x, y)) };
    walkViewport(node, asGroup(node, moved), width, height);
  };

  const walkUse = (node: XmlNode, within: Context): void => {
    const href = node.attributes['href'] ?? node.attributes['xlink:href'] ?? '';
    const target = href.startsWith('#') ? byId.get(href.slice(1)) : undefined;
    if (!target) {
      warnings.add(`${placed(node)}: 'use' of '${href.slice(0, 40)}', which is not in this drawing, is left out`);
      return;
    }
    if (inUse.has(target)) {
      throw new StaywrightError('input', `'use' of '${href.slice(0, 40)}' leads back to itself`, {
        where: placed(node),
      });
    }
    const lengthOf = lengthsOf(node, within);
    const [x, y] = [lengthOf('x', 'width') ?? 0, lengthOf('y', 'height') ?? 0];
    const { group: _, ...rest } = asGroup(node, within);
    const { id } = node.attributes;
    const group = within.using ? within.group : id;
    const copy: Context = {
      ...rest,
      ...(group === undefined ? {} : { group }),
      matrix: compose(within.matrix, translation(x, y)),
      using: true,
    };
    inUse.add(target);
    if (target.local === 'symbol') {
      const symbol = enter(target, copy);
      const [width, height] = [lengthOf('width', 'width'), lengthOf('height', 'height')];
      walkViewport(target, asGroup(target, symbol), width ?? symbol.lengths.width, height ?? symbol.lengths.height);
    } else if (target.local === 'svg') walkNested(target, enter(target, copy), lengthsOf(target, copy), lengthOf);
    else walk(target, copy);
    inUse.delete(target);
  };

  const drawPieces = (node: XmlNode, within: Context): void => {
    const { id: ownId, class: classes } = node.attributes;
    const id = within.using ? within.group : ownId;
    const isNamed = namesOf(node).length > 0 || classes !== undefined;
    const isInvisible = within.look['fill'] === 'none' && (within.look['stroke'] ?? 'none') === 'none';
    if (within.hidden || (isInvisible && !isNamed)) return;
    const pen = new Pen(within.matrix);
    drawShape(document, node, pen, lengthsOf(node, within));
    const names = [...namesOf(node), ...within.names];
    for (const subpath of pen.finish()) {
      pieces.push({
        ...subpath,
        names,
        where: placed(node),
        element: elements,
        ...(id === undefined || id === '' ? {} : { id }),
        ...(within.group === undefined ? {} : { group: within.group }),
      });
    }
  };

  const keepArtwork = (node: XmlNode, outer: Context): void => {
    const within = enter(node, outer);
    const markup = within.hidden ? '' : cleanMarkup(node);
    if (markup === '') return;
    const lengthOf = lengthsOf(node, within);
    const spans = [node, ...node.children.filter((child) => child.local === 'tspan')];
    const first = (name: string, percentOf: PercentOf): number => {
      const text = spans.map((span) => span.attributes[name]?.trim().split(/[\s,]+/)[0]).find((one) => one);
      return text === undefined ? 0 : cssLength(text, percentOf, within.lengths, placed(node));
    };
    const half = (name: 'width' | 'height'): number => (node.local === 'image' ? (lengthOf(name, name) ?? 0) / 2 : 0);
    const at = transformPoint(
      point(first('x', 'width') + half('width'), first('y', 'height') + half('height')),
      within.matrix,
    );
    const { a, b, c, d, e, f } = outer.matrix;
    const matrix = [a, b, c, d, e, f].map(decimals6).join(' ');
    const look = Object.entries(outer.look).filter(([, value]) => !/url\s*\(|[\\@]/i.test(value));
    const style = look.map(([name, value]) => ` ${name}="${escapeXml(value)}"`).join('');
    artwork.push({ markup: `<g transform="matrix(${matrix})"${style}>${markup}</g>`, at });
  };

  const { matrix, lengths } = rootViewport(document);
  index(document.root);
  const start: Context = {
    matrix: compose(scale, matrix),
    lengths,
    names: [],
    look: {},
    hidden: false,
    depth: 0,
    using: false,
  };
  const within = enter(document.root, start);
  if (property(document.root, 'display') !== 'none') walkChildren(document.root, within);
  return { pieces, artwork, warnings: [...warnings] };
};
