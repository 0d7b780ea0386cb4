import { point } from '../geometry/point.ts';
import { transformPoint } from '../geometry/transform-path.ts';
import type { Artwork } from '../pattern/drawing.ts';
import { cleanMarkup } from './clean-markup.ts';
import { cssLength } from './css-length.ts';
import { escapeXml } from './escape-xml.ts';
import { enterElement, lengthOr, type WalkContext } from './walk-context.ts';
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
  const { a, b, c, d, e, f } = outer.matrix;
  const look = Object.entries(outer.look).filter(([, value]) => !/url\s*\(|[\\@]/i.test(value));
  const style = look.map(([name, value]) => ` ${name}="${escapeXml(value)}"`).join('');
  const matrix = [a, b, c, d, e, f].map(decimals6).join(' ');
  return {
    markup: `<g transform="matrix(${matrix})"${style}>${markup}</g>`,
    at: transformPoint(point(x, y), within.matrix),
  };
};
