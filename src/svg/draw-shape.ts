import { StaywrightError } from '../errors.ts';
import { point, type Point } from '../geometry/point.ts';
import type { PercentOf } from './css-length.ts';
import { drawPath } from './draw-path.ts';
import { MOST_DISTANCE } from './limits.ts';
import { parsePathData } from './parse-path-data.ts';
import type { Pen } from './pen.ts';
import { isWithinReach } from './within-reach.ts';
import { placeInAttribute, placeOf, type XmlDocument, type XmlNode } from './xml-document.ts';

export const SHAPES: ReadonlySet<string> = new Set('path rect circle ellipse line polyline polygon'.split(' '));

/** A length attribute in user units; undefined where it is absent or `auto`. */
export type LengthOf = (name: string, percentOf: PercentOf) => number | undefined;

/** A closed ellipse, clockwise on paper from its rightmost point, in quarters. */
const drawEllipse = (pen: Pen, cx: number, cy: number, rx: number, ry: number): void => {
  const quarter = { rx, ry, turn: 0, large: false, sweep: true };
  pen.moveTo(point(cx + rx, cy));
  pen.arcTo(quarter, point(cx, cy + ry));
  pen.arcTo(quarter, point(cx - rx, cy));
  pen.arcTo(quarter, point(cx, cy - ry));
  pen.arcTo(quarter, point(cx + rx, cy));
  pen.close();
};

/** A rectangle, clockwise on paper from its top left corner; one radius alone counts for both, none exceeds half a side. */
const drawRectangle = (pen: Pen, lengthOf: LengthOf): void => {
  const [x, y] = [lengthOf('x', 'width') ?? 0, lengthOf('y', 'height') ?? 0];
  const [width, height] = [lengthOf('width', 'width') ?? 0, lengthOf('height', 'height') ?? 0];
  if (width <= 0 || height <= 0) return;
  const [ownX, ownY] = [lengthOf('rx', 'width'), lengthOf('ry', 'height')];
  const rx = Math.min(Math.max(0, ownX ?? ownY ?? 0), width / 2);
  const ry = Math.min(Math.max(0, ownY ?? ownX ?? 0), height / 2);
  const [right, bottom] = [x + width, y + height];
  const corner = (px: number, py: number): void =>
    pen.arcTo({ rx, ry, turn: 0, large: false, sweep: true }, point(px, py));
  pen.moveTo(point(x + rx, y));
  pen.lineTo(point(right - rx, y));
  corner(right, y + ry);
  pen.lineTo(point(right, bottom - ry));
  corner(right - rx, bottom);
  pen.lineTo(point(x + rx, bottom));
  corner(x, bottom - ry);
  pen.lineTo(point(x, y + ry));
  corner(x + rx, y);
  pen.close();
};

const readPoints = (document: XmlDocument, node: XmlNode): Point[] => {
  const text = node.attributes['points'] ?? '';
  const numbers = text.match(/[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/g) ?? [];
  const rest = text.replace(/[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/g, '').replace(/[\s,]+/g, '');
  const where = placeInAttribute(document, node, 'points', 0);
  if (rest !== '')
    throw new StaywrightError('input', `points hold '${rest.slice(0, 20)}', which is no number`, { where });
  if (numbers.length % 2 !== 0) throw new StaywrightError('input', 'points hold an odd count of numbers', { where });
  return Array.from({ length: numbers.length / 2 }, (_, i) =>
    point(Number(numbers[2 * i]), Number(numbers[2 * i + 1])),
  );
};

/** Draws one of SVG's basic shapes. Throws an `input` error for values that cannot be read; a shape of no size draws nothing. */
export const drawShape = (document: XmlDocument, node: XmlNode, pen: Pen, lengthOf: LengthOf): void => {
  switch (node.local) {
    case 'path':
      drawPath(
        parsePathData(node.attributes['d'] ?? '', (index) => placeInAttribute(document, node, 'd', index)),
        pen,
      );
      break;
    case 'rect':
      drawRectangle(pen, lengthOf);
      break;
    case 'circle': {
      const r = lengthOf('r', 'diagonal') ?? 0;
      if (r > 0) drawEllipse(pen, lengthOf('cx', 'width') ?? 0, lengthOf('cy', 'height') ?? 0, r, r);
      break;
    }
    case 'ellipse': {
      const [ownX, ownY] = [lengthOf('rx', 'width'), lengthOf('ry', 'height')];
      const [rx, ry] = [ownX ?? ownY ?? 0, ownY ?? ownX ?? 0];
      if (rx > 0 && ry > 0) drawEllipse(pen, lengthOf('cx', 'width') ?? 0, lengthOf('cy', 'height') ?? 0, rx, ry);
      break;
    }
    case 'line':
      pen.moveTo(point(lengthOf('x1', 'width') ?? 0, lengthOf('y1', 'height') ?? 0));
      pen.lineTo(point(lengthOf('x2', 'width') ?? 0, lengthOf('y2', 'height') ?? 0));
      break;
    default: {
      const [first, ...rest] = readPoints(document, node);
      if (!first) return;
      pen.moveTo(first);
      for (const p of rest) pen.lineTo(p);
      if (node.local === 'polygon') pen.close();
    }
  }
  if (pen.finish().every(({ path }) => path.segments.every(isWithinReach))) return;
  throw new StaywrightError('input', `<${node.local}> reaches over ${MOST_DISTANCE / 1e6} km`, {
    where: placeOf(document, node.offset),
    hint: 'look for a number or a scale that went wrong',
  });
};
