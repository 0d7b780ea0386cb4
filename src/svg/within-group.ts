import { StaywrightError } from '../errors.ts';
import { suggestName } from '../pattern/suggest.ts';
import { isSvg, placeOf, type XmlDocument, type XmlNode } from './xml-document.ts';

/**
 * The same drawing with nothing drawn but one group (or layer), known by its id or by the label its program gave it. What lies
 * beside it becomes definitions, which `use` may still point at; transforms round it stay.
 * Throws a `usage` error for a name that no group has, or that several have.
 */
export const withinGroup = (document: XmlDocument, name: string): XmlDocument => {
  const groups = groupsIn(document.root);
  const ids = groups.filter(({ attributes }) => attributes['id'] === name);
  const [group, other] = ids.length > 0 ? ids : groups.filter(({ label }) => label === name);
  if (group === undefined) {
    const names = groups
      .flatMap(({ attributes, label }) => [attributes['id'], label])
      .filter((text) => text !== undefined);
    throw new StaywrightError('usage', `no group of the drawing is called '${name}'`, {
      where: '--within',
      hint: suggestName(name, names),
    });
  }
  if (other !== undefined) {
    const message = `two groups are called '${name}': ${placeOf(document, group.offset)} and ${placeOf(document, other.offset)}`;
    throw new StaywrightError('usage', message, { where: '--within' });
  }
  return { ...document, root: keepOnly(document.root, group) ?? document.root };
};

const groupsIn = (node: XmlNode): XmlNode[] =>
  node.children.flatMap((child) => [...(isSvg(child) && child.local === 'g' ? [child] : []), ...groupsIn(child)]);

/** A copy of the branch that leads to the group; undefined where it does not lie below. */
const keepOnly = (node: XmlNode, group: XmlNode): XmlNode | undefined => {
  if (node === group) return node;
  for (const [at, child] of node.children.entries()) {
    const kept = keepOnly(child, group);
    if (kept === undefined) continue;
    const beside = node.children.filter((_, other) => other !== at);
    return { ...node, children: [definitions(node, beside), kept] };
  }
  return undefined;
};

const definitions = (node: XmlNode, children: XmlNode[]): XmlNode => ({
  ...node,
  name: 'defs',
  local: 'defs',
  attributes: {},
  valueOffsets: {},
  children,
});
