import type { XmlNode } from './xml-document.ts';

/** The declarations of a `style` attribute, names in lower case, without `!important`. */
const declarations = (style: string): Map<string, string> => {
  const found = new Map<string, string>();
  for (const declaration of style.split(';')) {
    const colon = declaration.indexOf(':');
    if (colon < 0) continue;
    const value = declaration.slice(colon + 1).replace(/!\s*important\s*$/i, '');
    found.set(declaration.slice(0, colon).trim().toLowerCase(), value.trim());
  }
  return found;
};

/** A property of an element: from its `style` attribute, else from the attribute of that name. */
export const property = (node: XmlNode, name: string): string | undefined => {
  const style = node.attributes['style'];
  const declared = style === undefined ? undefined : declarations(style).get(name);
  return declared ?? node.attributes[name]?.trim();
};

/** What text and pictures take over from the groups round them. */
const INHERITED =
  'fill fill-opacity fill-rule stroke stroke-width stroke-opacity font-family font-size font-style font-weight text-anchor letter-spacing'.split(
    ' ',
  );

/** The inherited look within an element: its own properties over those of the groups round it. */
export const inheritLook = (
  outer: Readonly<Record<string, string>>,
  node: XmlNode,
): Readonly<Record<string, string>> => {
  const own = INHERITED.flatMap((name) => {
    const value = property(node, name);
    return value === undefined || value === 'inherit' ? [] : [[name, value] as const];
  });
  return own.length === 0 ? outer : { ...outer, ...Object.fromEntries(own) };
};
