import { pathStart } from '../geometry/path.ts';
import { point, type Point } from '../geometry/point.ts';
import { transformPoint } from '../geometry/transform-path.ts';
import type { Artwork } from '../pattern/drawing.ts';
import { cleanMarkup } from './clean-markup.ts';
import { cssLength } from './css-length.ts';
import { drawShape, SHAPES } from './draw-shape.ts';
import { escapeXml } from '../ink/escape-xml.ts';
import { Pen } from './pen.ts';
import { enterElement, lengthOr, lengthsOf, type WalkContext } from './walk-context.ts';
import { placeOf, type XmlDocument, type XmlNode } from './xml-document.ts';

const decimals6 = (value: number): string => String(Math.round(value * 1e6) / 1e6 + 0);

/**
 * A text or picture as markup that stands by itself in millimetres, with the look it takes over, and the point to place it by: where
 * text starts, the middle of a picture. Undefined where it is hidden or nothing of it may be kept.
 */
export const placeArtwork = (document: XmlDocument, node: XmlNode, outer: WalkContext): Artwork | undefined => {
  const within = enterElement(document, node, outer);
  const markup = within.hidden ? '' : cleanMarkup(node);
  if (markup === '') return undefined;
  const spans = [node, ...node.children.filter(({ local }) => local === 'tspan')];
  const first = (name: 'x' | 'y' | 'width' | 'height', percentOf: 'width' | 'height'): number => {
    const text = spans.map(({ attributes }) => attributes[name]?.trim().split(/[\s,]+/)[0]).find(Boolean) ?? '0';
    return lengthOr(() => cssLength(text, percentOf, within.lengths, placeOf(document, node.offset)), 0);
  };
  const half = node.local === 'image' ? 0.5 : 0;
  const [x, y] = [
    first('x', 'width') + half * first('width', 'width'),
    first('y', 'height') + half * first('height', 'height'),
  ];
  return { markup: standing(markup, outer), at: transformPoint(point(x, y), within.matrix) };
};

/**
 * As `placeArtwork`, for a group that says it is art: nothing in it is an outline or a mark. It is placed by where its first shape
 * starts; undefined where it draws none.
 */
export const placeArtGroup = (document: XmlDocument, node: XmlNode, outer: WalkContext): Artwork | undefined => {
  const within = enterElement(document, node, outer);
  const markup = within.hidden ? '' : cleanMarkup(node);
  const at = firstPlace(document, node, within);
  return markup === '' || at === undefined ? undefined : { markup: standing(markup, outer), at };
};

const firstPlace = (document: XmlDocument, node: XmlNode, within: WalkContext): Point | undefined => {
  for (const child of node.children) {
    const inner = enterElement(document, child, within);
    const pen = new Pen(inner.matrix);
    if (SHAPES.has(child.local)) drawShape(document, child, pen, lengthsOf(document, child, inner));
    const [drawn] = pen.finish();
    const found = drawn === undefined ? firstPlace(document, child, inner) : pathStart(drawn.path);
    if (found !== undefined) return found;
  }
  return undefined;
};

/** Markup with all that it takes over from what lies round it. */
const standing = (markup: string, { matrix, look }: WalkContext): string => {
  const { a, b, c, d, e, f } = matrix;
  const kept = Object.entries(look).filter(([, value]) => !/url\s*\(|[\\@]/i.test(value));
  const style = kept.map(([name, value]) => ` ${name}="${escapeXml(value)}"`).join('');
  return `<g transform="matrix(${[a, b, c, d, e, f].map(decimals6).join(' ')})"${style}>${markup}</g>`;
};
