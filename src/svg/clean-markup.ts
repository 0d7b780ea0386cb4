/**
 * Artwork as it is kept: shapes, text and embedded pictures, without anything that could run, load or reach outside it:
 * scripts, event attributes, links, style sheets, foreign content and outside references are left out.
 */
import { stringify } from 'svgson';
import { isSvg, type XmlNode } from './xml-document.ts';
import { escapeXml } from '../ink/escape-xml.ts';

const KEPT_ELEMENTS = new Set(
  'g a switch path rect circle ellipse line polyline polygon text tspan textPath image title desc'.split(' '),
);

/** Elements whose content is kept although they themselves are not. */
const UNWRAPPED: Readonly<Record<string, string>> = { a: 'g', switch: 'g', textPath: 'tspan' };

/** Attributes that take part in shape or look; everything else goes, event attributes and references above all. */
const KEPT_ATTRIBUTES = new Set(
  (
    'id class style transform d points x y x1 y1 x2 y2 cx cy r rx ry dx dy rotate width height preserveAspectRatio textLength lengthAdjust ' +
    'fill fill-opacity fill-rule stroke stroke-width stroke-opacity stroke-dasharray stroke-dashoffset stroke-linecap stroke-linejoin ' +
    'stroke-miterlimit opacity color display visibility font-family font-size font-style font-weight font-variant font-stretch ' +
    'text-anchor text-decoration dominant-baseline alignment-baseline baseline-shift letter-spacing word-spacing writing-mode ' +
    'direction unicode-bidi paint-order vector-effect xml:space xml:lang'
  ).split(' '),
);

const EMBEDDED_PICTURE = /^data:image\/(?:png|jpeg|gif|webp);base64,[A-Za-z0-9+/=\s]*$/;

/** Anything in a value that could load something: functions of CSS, escapes that could hide one, at-rules, comments. */
const REACHES_OUT = /url\s*\(|expression\s*\(|image(?:-set)?\s*\(|javascript:|\\|@|\/\*/i;

const cleanStyle = (style: string): string =>
  style
    .split(';')
    .map((declaration) => declaration.trim())
    .filter((declaration) => /^[a-z-]+\s*:/i.test(declaration) && !REACHES_OUT.test(declaration))
    .filter((declaration) => !/^(?:behavior|-moz-binding)\s*:/i.test(declaration))
    .join(';');

const cleanAttributes = (node: XmlNode): Record<string, string> | undefined => {
  const kept: Record<string, string> = {};
  for (const [name, value] of Object.entries(node.attributes)) {
    const clean = name === 'style' ? cleanStyle(value) : value;
    if (KEPT_ATTRIBUTES.has(name) && clean !== '' && !REACHES_OUT.test(clean)) kept[name] = clean;
  }
  if (node.local !== 'image') return kept;
  const href = node.attributes['href'] ?? node.attributes['xlink:href'] ?? '';
  return EMBEDDED_PICTURE.test(href) ? { ...kept, href: href.replace(/\s+/g, '') } : undefined;
};

const cleanNode = (node: XmlNode): XmlNode | undefined => {
  if (node.type === 'text') return node;
  if (!isSvg(node) || !KEPT_ELEMENTS.has(node.local)) return undefined;
  const attributes = cleanAttributes(node);
  if (!attributes) return undefined;
  const children = node.children.map(cleanNode).filter((child) => child !== undefined);
  if (node.local === 'g' && children.length === 0) return undefined;
  return { ...node, name: UNWRAPPED[node.local] ?? node.local, attributes, children };
};

/** svgson ends a CDATA section only once in a text: one text for each place where it would have to. */
const splitText = (node: XmlNode): XmlNode[] => {
  if (node.type !== 'text') return [node];
  const parts = node.value.replace(/\r/g, '\n').split(/(?<=\]\]>)/);
  return parts.map((value) => Object.assign({}, node, { value }));
};

/** Cleaned markup of one element without line breaks between elements; empty where nothing of it may stay. Cleaning twice changes nothing. */
export const cleanMarkup = (node: XmlNode): string => {
  const clean = cleanNode(node);
  if (!clean || clean.type === 'text') return '';
  return stringify(clean, {
    transformNode: (one) => ({ ...one, children: (one.children as XmlNode[]).flatMap(splitText) }),
    transformAttr: (name, value) => `${name}="${escapeXml(value)}"`,
  });
};
