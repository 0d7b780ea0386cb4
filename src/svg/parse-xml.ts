import { SaxesParser, type SaxesTagNS } from 'saxes';
import { StaywrightError } from '../errors.ts';
import { MOST_DEPTH, MOST_ELEMENTS } from './limits.ts';
import { readEntities } from './read-entities.ts';
import { placeOf, XLINK_NAMESPACE, xmlSource, type XmlDocument, type XmlNode } from './xml-document.ts';

const XML_NAMESPACE = 'http://www.w3.org/XML/1998/namespace';
const PREDEFINED = { amp: '&', gt: '>', lt: '<', quot: '"', apos: "'" };

const textNode = (value: string, offset: number): XmlNode => ({
  type: 'text',
  name: '',
  local: '',
  namespace: '',
  value,
  attributes: {},
  valueOffsets: {},
  children: [],
  offset,
});

/** Names with the prefixes that SVG itself uses, whatever prefixes the file chose. */
const elementNode = (tag: SaxesTagNS, offset: number, offsets: ReadonlyMap<string, number>): XmlNode => {
  const attributes: Record<string, string> = {};
  const valueOffsets: Record<string, number> = {};
  let label: string | undefined;
  for (const { name, local, prefix, uri, value } of Object.values(tag.attributes)) {
    if (prefix === 'xmlns' || name === 'xmlns') continue;
    const foreign = uri !== '' && uri !== XLINK_NAMESPACE && uri !== XML_NAMESPACE;
    if (foreign && local === 'label') label = value;
    if (foreign) continue;
    const key = uri === '' ? local : `${uri === XLINK_NAMESPACE ? 'xlink' : 'xml'}:${local}`;
    attributes[key] = value;
    valueOffsets[key] = offsets.get(name)!;
  }
  const { local, uri: namespace } = tag;
  const node = { type: 'element', name: local, local, namespace, value: '', attributes, valueOffsets, offset };
  return { ...node, children: [], ...(label === undefined ? {} : { label }) };
};

/**
 * Reads strict XML with namespaces into svgson's tree. Attributes of foreign namespaces, comments, processing instructions
 * and blank text outside `text` elements are left out; nothing outside the file is ever fetched.
 * Throws an `input` error with `file:line:column` for anything that is not well-formed or passes a limit.
 */
export const parseXml = (source: string, file: string): XmlDocument => {
  const lines = xmlSource(source, file);
  const fail = (message: string, offset: number, hint?: string): never => {
    const where = placeOf(lines, Math.min(offset, source.length));
    throw new StaywrightError('input', message, { where, ...(hint === undefined ? {} : { hint }) });
  };
  const parser = new SaxesParser({ xmlns: true });
  const open: XmlNode[] = [];
  let root: XmlNode | undefined;
  let elements = 0;
  let texts = 0;
  let tagStart = 0;
  let offsets = new Map<string, number>();

  const addText = (value: string): void => {
    const parent = open.at(-1);
    if (!parent) return;
    if (texts === 0 && value.trim() === '') return;
    const last = parent.children.at(-1);
    if (last?.type === 'text') last.value += value;
    else parent.children.push(textNode(value, parser.position));
  };

  parser.on('error', (error) => {
    const message = error.message.replace(/^(?:\d+:\d+: )?/, '').replace(/\.$/, '');
    fail(`not well-formed XML: ${message}`, parser.position, 'save it again as SVG; the file may be cut short');
  });
  parser.on('doctype', (doctype) => {
    const entities = readEntities(doctype, placeOf(lines, parser.position));
    parser.ENTITIES = Object.assign(entities, PREDEFINED);
  });
  parser.on('opentagstart', (tag) => {
    tagStart = parser.position - tag.name.length - 2;
    offsets = new Map();
  });
  parser.on('attribute', ({ name }) => {
    const end = parser.position - 1;
    offsets.set(name, source.lastIndexOf(source[end]!, end - 1) + 1);
  });
  parser.on('opentag', (tag) => {
    elements += 1;
    if (elements > MOST_ELEMENTS) fail(`over ${MOST_ELEMENTS} elements`, tagStart);
    if (open.length >= MOST_DEPTH) fail(`elements nested over ${MOST_DEPTH} deep`, tagStart);
    const node = elementNode(tag, tagStart, offsets);
    const parent = open.at(-1);
    if (parent) parent.children.push(node);
    else root = node;
    open.push(node);
    if (node.local === 'text') texts += 1;
  });
  parser.on('closetag', () => {
    if (open.pop()?.local === 'text') texts -= 1;
  });
  parser.on('text', addText);
  parser.on('cdata', addText);
  parser.write(source).close();
  return { ...lines, root: root! };
};
