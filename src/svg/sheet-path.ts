import { StaywrightError } from '../errors.ts';
import type { Path } from '../geometry/path.ts';
import { point, samePoint, type Point } from '../geometry/point.ts';
import { cubic, line, type Segment } from '../geometry/segment.ts';
import { MOST_DISTANCE } from './limits.ts';
import { pathCommands } from './path-commands.ts';
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
  for (const { letter, values: v, index } of pathCommands(data, placeAt)) {
    const at = (i: number): Point => point(v[i]! + 0, v[i + 1]! + 0);
    if (letter === 'M' && from === undefined) {
      from = at(0);
      continue;
    }
    if (letter === 'L') segments.push(line(from!, at(0)));
    else if (letter === 'C') segments.push(cubic(from!, at(0), at(2), at(4)));
    else
      fail(
        `has '${letter}' where only one M, then L and C may stand`,
        placeAt(index),
        'save it with absolute coordinates, or label it again',
      );
    from = segments.at(-1)!.end;
  }
  if (segments.length === 0) return fail('draws nothing', here);
  if (!segments.every(isWithinReach)) return fail(`reaches over ${MOST_DISTANCE / 1e6} km`, here);
  const kept = segments.filter((segment) => !isNothing(segment));
  return { segments: kept.length > 0 ? kept : segments.slice(0, 1) };
};
