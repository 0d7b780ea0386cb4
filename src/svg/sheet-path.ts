import { StaywrightError } from '../errors.ts';
import type { Path } from '../geometry/path.ts';
import { point, samePoint, type Point } from '../geometry/point.ts';
import { cubic, line, type Segment } from '../geometry/segment.ts';
import { MOST_DISTANCE } from './limits.ts';
import { parsePathData } from './parse-path-data.ts';
import { isWithinReach } from './within-reach.ts';
import { placeInAttribute, placeOf, type XmlDocument, type XmlNode } from './xml-document.ts';

const isNothing = (segment: Segment): boolean =>
  samePoint(segment.start, segment.end) &&
  (segment.kind === 'line' ||
    (samePoint(segment.start, segment.startHandle) && samePoint(segment.end, segment.endHandle)));

/**
 * The path of an element of a sheet: one piece of absolute `M`, `L` and `C`. `what` names it in messages.
 * Throws an `input` error for anything else. Segments without length are left out unless nothing else is there.
 */
export const sheetPath = (document: XmlDocument, node: XmlNode, what: string): Path => {
  const placeAt = (index: number): string => placeInAttribute(document, node, 'd', index);
  const fail = (message: string, where: string, hint?: string): never => {
    throw new StaywrightError('input', `${what} ${message}`, { where, ...(hint === undefined ? {} : { hint }) });
  };
  const here = placeOf(document, node.offset);
  const data = node.attributes['d'];
  if (node.local !== 'path' || data === undefined) return fail('has no path data', here);
  if (node.attributes['transform'] !== undefined) {
    return fail('has a transform of its own', here, 'in the drawing program, move whole panels only');
  }
  const segments: Segment[] = [];
  let from: Point | undefined;
  for (const c of parsePathData(data, placeAt)) {
    const to = 'x' in c && 'y' in c ? point(c.x + 0, c.y + 0) : undefined;
    if (to !== undefined && c.code === 'M' && from === undefined) from = to;
    else if (to !== undefined && c.code === 'L') segments.push(line(from!, to));
    else if (c.code === 'C') segments.push(cubic(from!, point(c.x1 + 0, c.y1 + 0), point(c.x2 + 0, c.y2 + 0), to!));
    else
      fail(
        `has '${c.code}' where only one M, then L and C may stand`,
        placeAt(c.code === 'M' ? data.lastIndexOf('M') : Math.max(0, data.indexOf(c.code))),
        'save it with absolute coordinates, or label it again',
      );
    from = segments.at(-1)?.end ?? from;
  }
  if (segments.length === 0) return fail('draws nothing', here);
  if (!segments.every(isWithinReach)) return fail(`reaches over ${MOST_DISTANCE / 1e6} km`, here);
  const kept = segments.filter((segment) => !isNothing(segment));
  return { segments: kept.length > 0 ? kept : segments.slice(0, 1) };
};
