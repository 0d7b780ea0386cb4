import { StaywrightError } from '../errors.ts';
import type { Point } from '../geometry/point.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import type { Change } from '../record/change.ts';
import { artOf, readPanel } from './read-panel.ts';
import { readRecord } from './read-record.ts';
import type { Placing, Sheet, SheetPart } from './sheet.ts';
import { transformList } from './transform-list.ts';
import { readViewBox, type ViewBox } from './view-box.ts';
import { isSvg, placeOf, textOf, type XmlDocument, type XmlNode } from './xml-document.ts';

const LEFT_OUT = new Set(['title', 'desc', 'metadata', 'defs', 'style', 'script']);

/** How much a size may differ from the viewBox, as a share, for rounding by drawing programs. */
const SIZE_ROUNDING = 0.001;

/** Whether a document says that it is a sheet. */
export const isSheet = (document: XmlDocument): boolean =>
  document.root.local === 'svg' && document.root.attributes['data-sheet'] !== undefined;

const holdsPanel = (node: XmlNode): boolean =>
  node.attributes['data-kind'] === 'panel' || (node.local === 'g' && node.children.some(holdsPanel));

/**
 * Reads a sheet and holds it to its rules; edges keep the characters they were read from.
 * Throws an `input` error with `file:line:column` for the first rule that is broken.
 */
export const readSheet = (document: XmlDocument): Sheet => {
  const { root } = document;
  const placed = (node: XmlNode): string => placeOf(document, node.offset);
  const fail = (node: XmlNode, message: string, hint?: string): never => {
    throw new StaywrightError('input', message, { where: placed(node), ...(hint === undefined ? {} : { hint }) });
  };
  const version = root.attributes['data-sheet'];
  if (version !== '1')
    fail(
      root,
      `this is a sheet of kind '${version?.slice(0, 20)}', and only kind 1 is known`,
      'use a newer staywright',
    );
  const pieces = root.attributes['data-pieces'];
  if (pieces !== 'pairs' && pieces !== 'single') return fail(root, `data-pieces must be 'pairs' or 'single'`);
  const units = root.attributes['data-units'];
  if (units !== 'mm' && units !== 'in') return fail(root, `data-units must be 'mm' or 'in'`);
  const box = readBox(root, fail, placed);

  const panels: Panel[] = [];
  const record: Change[] = [];
  const art: XmlNode[] = [];
  const places = new Map<string, Point>();
  const readLayer = (layer: XmlNode, at: Point): void => {
    for (const node of layer.children) {
      if (!isSvg(node)) continue;
      const kind = node.attributes['data-kind'];
      if (kind === 'panel') {
        const place = readPlace(node, at, fail, placed);
        const panel = readPanel(document, node);
        if (panels.some(({ name }) => name === panel.name)) fail(node, `two panels are named ${panel.name}`);
        panels.push(panel);
        places.set(panel.name, place);
      } else if (kind === 'changes') record.push(...readRecord(textOf(node), placed(node)));
      else if (node.local === 'g' && kind === undefined && holdsPanel(node)) {
        readLayer(node, readPlace(node, at, fail, placed));
      } else if (kind !== 'label' && !LEFT_OUT.has(node.local)) art.push(node);
    }
  };
  readLayer(root, { x: 0, y: 0 });
  if (panels.length === 0) fail(root, 'the sheet holds no panel');
  checkSides(panels, pieces, (message, hint) => fail(root, message, hint));

  const part = readPart(root, fail);
  const pattern = { name: root.attributes['data-name'] ?? '', pieces, units, panels } as const;
  const placing: Placing = { width: box.width, height: box.height, panels: places };
  const atOrigin = box.x === 0 && box.y === 0;
  return { pattern, record, ...(atOrigin ? { placing } : {}), ...artOf(art), ...(part ? { part } : {}) };
};

/** Left and right panels are drawn singly, and then each is of one of the two. */
const checkSides = (
  panels: readonly Panel[],
  pieces: Pattern['pieces'],
  fail: (message: string, hint: string) => never,
): void => {
  const sided = panels.find(({ side }) => side !== undefined);
  if (sided === undefined) return;
  if (pieces === 'pairs') {
    fail(`panel ${sided.name} is of the ${sided.side} side, but the sheet is of pairs`, `write data-pieces="single"`);
  }
  const other = panels.find(({ side }) => side === undefined);
  if (other === undefined) return;
  fail(`panel ${other.name} has no data-side, though ${sided.name} has`, 'write data-side="left" or "right" there');
};

type Fail = (node: XmlNode, message: string, hint?: string) => never;

const isNear = (size: number, unit: number): boolean => Math.abs(size - unit) <= SIZE_ROUNDING * unit;

/** One user unit must be one millimetre. */
const readBox = (root: XmlNode, fail: Fail, placed: (node: XmlNode) => string): ViewBox => {
  const box = readViewBox(root.attributes['viewBox'], placed(root));
  const millimetres = ['width', 'height'].map((side) => /^\s*([\d.]+)mm\s*$/.exec(root.attributes[side] ?? '')?.[1]);
  const [width, height] = millimetres.map(Number);
  if (!box || millimetres.includes(undefined) || !isNear(width!, box.width) || !isNear(height!, box.height)) {
    return fail(
      root,
      'width and height must be in mm and equal the viewBox',
      'a drawing program may have rescaled it: go back to the sheet as it was written',
    );
  }
  return box;
};

/** A panel may be moved about on the sheet, but not turned, mirrored or scaled: where its origin stands, within a group that stands at `group`. */
const readPlace = (node: XmlNode, group: Point, fail: Fail, placed: (node: XmlNode) => string): Point => {
  const { a, b, c, d, e, f } = transformList(node.attributes['transform'] ?? '', placed(node));
  if (a !== 1 || b !== 0 || c !== 0 || d !== 1) {
    fail(
      node,
      `${node.attributes['id'] ?? 'a group'} is turned or scaled; on a sheet a panel may only be moved`,
      'undo that in the drawing program',
    );
  }
  return { x: group.x + e, y: group.y + f };
};

const readPart = (root: XmlNode, fail: Fail): SheetPart | undefined => {
  const text = root.attributes['data-part'];
  if (text === undefined) return undefined;
  const [, number, of] = /^(\d{1,4})\/(\d{1,4})$/.exec(text) ?? [];
  if (number === undefined || Number(number) < 1 || Number(number) > Number(of)) {
    return fail(root, `data-part '${text.slice(0, 20)}' must be like '2/6'`);
  }
  return { number: Number(number), of: Number(of) };
};
