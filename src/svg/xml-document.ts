import type { INode } from 'svgson';

/** An element or a run of text: svgson's tree, with what reading and error messages need besides. */
export interface XmlNode extends INode {
  /** Name without prefix. */
  readonly local: string;
  readonly namespace: string;
  readonly children: XmlNode[];
  /** Where its `<` stands in the source. */
  readonly offset: number;
  /** Where the value of each attribute starts in the source. */
  readonly valueOffsets: Readonly<Record<string, number>>;
  /** What other programs call it, from `label` attributes of namespaces of their own. */
  readonly label?: string;
}

/** A text with the places where its lines start, so that finding a line takes no search from the top. */
export interface XmlSource {
  readonly file: string;
  readonly source: string;
  readonly lineStarts: readonly number[];
}

export interface XmlDocument extends XmlSource {
  readonly root: XmlNode;
}

const SVG_NAMESPACE = 'http://www.w3.org/2000/svg';
export const XLINK_NAMESPACE = 'http://www.w3.org/1999/xlink';

/** An element of SVG; files without any namespace are taken for SVG too. */
export const isSvg = (node: XmlNode): boolean =>
  node.type === 'element' && (node.namespace === SVG_NAMESPACE || node.namespace === '');

export const xmlSource = (source: string, file: string): XmlSource => {
  const lineStarts = [0];
  for (let at = source.indexOf('\n'); at >= 0; at = source.indexOf('\n', at + 1)) lineStarts.push(at + 1);
  return { file, source, lineStarts };
};

/** `file:line:column` of a place in the source, both from 1. */
export const placeOf = ({ file, lineStarts }: XmlSource, offset: number): string => {
  let [low, high] = [0, lineStarts.length - 1];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (lineStarts[middle]! <= offset) low = middle;
    else high = middle - 1;
  }
  return `${file}:${low + 1}:${offset - lineStarts[low]! + 1}`;
};

/**
 * The characters of an attribute as they stand in the source, line ends included; its value as read where they hold
 * references to characters.
 */
export const rawAttribute = (document: XmlDocument, node: XmlNode, name: string): string | undefined => {
  const value = node.attributes[name];
  const start = node.valueOffsets[name];
  if (value === undefined || start === undefined) return value;
  const quote = document.source[start - 1]!;
  const raw = document.source.slice(start, document.source.indexOf(quote, start));
  return raw.includes('&') ? value : raw;
};

/** Where character number `index` of an attribute's value stands; the attribute's start where references shift it. */
export const placeInAttribute = (document: XmlDocument, node: XmlNode, name: string, index: number): string => {
  const start = node.valueOffsets[name];
  if (start === undefined) return placeOf(document, node.offset);
  const plain = rawAttribute(document, node, name)?.length === node.attributes[name]?.length;
  return placeOf(document, plain ? start + index : start);
};

/** All text within an element. */
export const textOf = (node: XmlNode): string =>
  node.type === 'text' ? node.value : node.children.map(textOf).join('');
