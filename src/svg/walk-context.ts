import { StaywrightError } from '../errors.ts';
import { compose, type Matrix } from '../geometry/matrix.ts';
import { cssLength, type LengthContext } from './css-length.ts';
import type { LengthOf } from './draw-shape.ts';
import { inheritLook, property } from './properties.ts';
import { transformList } from './transform-list.ts';
import { placeInAttribute, placeOf, type XmlDocument, type XmlNode } from './xml-document.ts';

/** What an element takes over from all that lies round it. */
export interface WalkContext {
  /** From user units to millimetres. */
  readonly matrix: Matrix;
  readonly lengths: LengthContext;
  /** Names of the groups round it, innermost first. */
  readonly names: readonly string[];
  /** The nearest group with an id. */
  readonly group?: string;
  readonly look: Readonly<Record<string, string>>;
  readonly hidden: boolean;
  readonly depth: number;
  /** Whether a `use` is being drawn: ids below it are not its own, since they stand for each copy. */
  readonly using: boolean;
}

/** What an element may be called by. */
export const namesOf = (node: XmlNode): string[] => {
  const { id, class: classes, 'data-level': level, 'data-name': name } = node.attributes;
  const names = [id, ...(classes?.split(/\s+/) ?? []), level, name, node.label];
  return names.filter((text): text is string => text !== undefined && text !== '');
};

/** A length that only places or sizes text: one that cannot be read counts as absent. */
export const lengthOr = (read: () => number, fallback: number): number => {
  try {
    return read();
  } catch (error) {
    if (error instanceof StaywrightError) return fallback;
    throw error;
  }
};

/** Reads the lengths of an element. */
export const lengthsOf =
  (document: XmlDocument, node: XmlNode, { lengths }: WalkContext): LengthOf =>
  (name, percentOf) => {
    const text = property(node, name);
    if (text === undefined || text === '' || text === 'auto') return undefined;
    return cssLength(text, percentOf, lengths, placeInAttribute(document, node, name, 0));
  };

/** The context within an element: its transform, look, visibility and font size over those of what lies round it. */
export const enterElement = (document: XmlDocument, node: XmlNode, outer: WalkContext): WalkContext => {
  const transform = property(node, 'transform');
  const matrix =
    transform === undefined
      ? outer.matrix
      : compose(outer.matrix, transformList(transform, placeInAttribute(document, node, 'transform', 0)));
  const visibility = property(node, 'visibility');
  const size = property(node, 'font-size') ?? '';
  const where = placeOf(document, node.offset);
  const fontSize = lengthOr(() => cssLength(size, 'font', outer.lengths, where), outer.lengths.fontSize);
  return {
    ...outer,
    matrix,
    lengths: { ...outer.lengths, fontSize },
    look: inheritLook(outer.look, node),
    hidden: visibility === undefined ? outer.hidden : visibility !== 'visible',
    depth: outer.depth + 1,
  };
};

/** The context within an element that names what it holds. */
export const asGroup = (node: XmlNode, within: WalkContext): WalkContext => {
  const { id } = node.attributes;
  const names = [...namesOf(node), ...within.names];
  return id === undefined || id === '' || within.using ? { ...within, names } : { ...within, names, group: id };
};
