/**
 * Walks a drawing as a renderer would and collects what it draws: shapes as paths in millimetres, text and pictures as cleaned markup.
 * Definitions, hidden elements and elements that draw nothing are passed over; clips and masks do not cut.
 */
import { StaywrightError } from '../errors.ts';
import { compose, translation, type Matrix } from '../geometry/matrix.ts';
import type { Path } from '../geometry/path.ts';
import type { Artwork } from '../pattern/drawing.ts';
import { drawShape, SHAPES, type LengthOf } from './draw-shape.ts';
import { MOST_DEPTH, MOST_USED_ELEMENTS } from './limits.ts';
import { Pen } from './pen.ts';
import { placeArtGroup, placeArtwork } from './place-artwork.ts';
import { property } from './properties.ts';
import { rootViewport } from './root-viewport.ts';
import { readViewBox, viewBoxMatrix } from './view-box.ts';
import { asGroup, enterElement, lengthsOf, namesOf, type WalkContext } from './walk-context.ts';
import { isSvg, placeOf, type XmlDocument, type XmlNode } from './xml-document.ts';

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

const CONTAINERS = new Set(['g', 'a', 'svg']);

/** Collects all that a drawing draws; `scale` is applied to millimetres. Throws an `input` error for what cannot be read. */
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

  const enter = (node: XmlNode, outer: WalkContext): WalkContext => enterElement(document, node, outer);

  const walk = (node: XmlNode, outer: WalkContext): void => {
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
    else if (local === 'g' && node.attributes['data-kind'] === 'art') keepArt(placeArtGroup(document, node, outer));
    else if (local === 'svg') walkNested(node, enter(node, outer), lengthsOf(document, node, outer));
    else if (CONTAINERS.has(local)) walkChildren(node, asGroup(node, enter(node, outer)));
    else if (local === 'switch') walkSwitch(node, asGroup(node, enter(node, outer)));
    else if (local === 'use') walkUse(node, enter(node, outer));
    else if (local === 'text' || local === 'image') keepArt(placeArtwork(document, node, outer));
  };

  const keepArt = (kept: Artwork | undefined): void => {
    if (kept) artwork.push(kept);
  };

  const walkChildren = (node: XmlNode, within: WalkContext): void => {
    for (const child of node.children) walk(child, within);
  };

  /** The first child that needs no extension, as a program without extensions draws it. */
  const walkSwitch = (node: XmlNode, within: WalkContext): void => {
    const chosen = node.children.find(
      (child) =>
        isSvg(child) && child.local !== 'foreignObject' && child.attributes['requiredExtensions'] === undefined,
    );
    if (chosen) walk(chosen, within);
  };

  /** Content with a viewport of its own: nested drawings and symbols. Nothing is clipped. */
  const walkViewport = (node: XmlNode, within: WalkContext, width: number, height: number): void => {
    if (width <= 0 || height <= 0) return;
    const box = readViewBox(node.attributes['viewBox'], placed(node));
    const aspect = node.attributes['preserveAspectRatio'];
    const matrix = box
      ? compose(within.matrix, viewBoxMatrix(box, { width, height }, aspect, placed(node)))
      : within.matrix;
    const size = box ?? { width, height };
    walkChildren(node, { ...within, matrix, lengths: { ...within.lengths, width: size.width, height: size.height } });
  };

  const walkNested = (node: XmlNode, within: WalkContext, lengthOf: LengthOf, use?: LengthOf): void => {
    const [x, y] = [lengthOf('x', 'width') ?? 0, lengthOf('y', 'height') ?? 0];
    const width = use?.('width', 'width') ?? lengthOf('width', 'width') ?? within.lengths.width;
    const height = use?.('height', 'height') ?? lengthOf('height', 'height') ?? within.lengths.height;
    const moved = { ...within, matrix: compose(within.matrix, translation(x, y)) };
    walkViewport(node, asGroup(node, moved), width, height);
  };

  const walkUse = (node: XmlNode, within: WalkContext): void => {
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
    const lengthOf = lengthsOf(document, node, within);
    const [x, y] = [lengthOf('x', 'width') ?? 0, lengthOf('y', 'height') ?? 0];
    const { group: _, ...rest } = asGroup(node, within);
    const { id } = node.attributes;
    const group = within.using ? within.group : id;
    const copy: WalkContext = {
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
    } else if (target.local === 'svg')
      walkNested(target, enter(target, copy), lengthsOf(document, target, copy), lengthOf);
    else walk(target, copy);
    inUse.delete(target);
  };

  const drawPieces = (node: XmlNode, within: WalkContext): void => {
    const { id: ownId, class: classes } = node.attributes;
    const id = within.using ? within.group : ownId;
    const isNamed = namesOf(node).length > 0 || classes !== undefined;
    const isInvisible = within.look['fill'] === 'none' && (within.look['stroke'] ?? 'none') === 'none';
    if (within.hidden || (isInvisible && !isNamed)) return;
    const pen = new Pen(within.matrix);
    drawShape(document, node, pen, lengthsOf(document, node, within));
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

  const { matrix, lengths } = rootViewport(document);
  index(document.root);
  const start: WalkContext = {
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
