import { isSvg, textOf, type XmlNode } from './xml-document.ts';

/** Declarations by simple selector: `tag`, `.class` or `#id`. */
type Rules = ReadonlyMap<string, string>;

const SIMPLE = /^[.#]?[A-Za-z_][\w-]*$/;

/** The rules of a style sheet whose selectors are simple; at-rules and all other selectors are passed over. */
const rulesOf = (css: string, rules: Map<string, string>): void => {
  const text = css.replace(/\/\*[^]*?\*\//g, ' ');
  let depth = 0;
  let start = 0;
  let selectors = '';
  for (let at = 0; at < text.length; at += 1) {
    const character = text[at];
    if (character === ';' && depth === 0) start = at + 1;
    if (character === '{') {
      if (depth === 0) selectors = text.slice(start, at).trim();
      depth += 1;
      start = at + 1;
    }
    if (character !== '}' || depth === 0) continue;
    depth -= 1;
    const body = text.slice(start, at).trim();
    start = at + 1;
    if (depth > 0 || selectors.startsWith('@')) continue;
    for (const selector of selectors.split(',').map((one) => one.trim())) {
      if (SIMPLE.test(selector)) rules.set(selector, `${rules.get(selector) ?? ''}${body};`);
    }
  }
};

const collectRules = (node: XmlNode, rules: Map<string, string>): void => {
  if (isSvg(node) && node.local === 'style') rulesOf(textOf(node), rules);
  else for (const child of node.children) collectRules(child, rules);
};

const applyRules = (node: XmlNode, rules: Rules): void => {
  const { id, class: classes = '', style = '' } = node.attributes;
  const selectors = [node.local, ...classes.split(/\s+/).map((name) => `.${name}`), `#${id}`];
  const declared = selectors.flatMap((selector) => rules.get(selector) ?? []);
  if (declared.length > 0) node.attributes['style'] = declared.join('') + style;
  for (const child of node.children) applyRules(child, rules);
};

/**
 * Writes what style sheets say of tags, classes and ids into `style` attributes, under what stands there already: drawing programs keep
 * the look of text and hidden layers in classes. Combined selectors and at-rules are not read.
 */
export const applyStyles = (root: XmlNode): void => {
  const rules = new Map<string, string>();
  collectRules(root, rules);
  if (rules.size > 0) applyRules(root, rules);
};
