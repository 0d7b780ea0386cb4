import { pathBox } from '../geometry/box.ts';
import { intersectPaths } from '../geometry/intersect.ts';
import type { Path } from '../geometry/path.ts';
import { distance, movePoint, type Point } from '../geometry/point.ts';
import { line } from '../geometry/segment.ts';
import { SAME_POINT } from '../geometry/tolerance.ts';
import { scaled, unit, vectorTo } from '../geometry/vector.ts';
import type { Notch } from './panel.ts';

/**
 * Where a notch, carried on outwards, meets the cutting line: there it is snipped. Exact to CROSSING_TOLERANCE.
 * Undefined for a notch without length, or where the stitching line is itself the line that is cut.
 */
export const notchOnCutting = ({ at, inner }: Notch, cutting: Path): Point | undefined => {
  const { minX, minY, maxX, maxY } = pathBox(cutting);
  const reach = scaled(unit(vectorTo(inner, at)), maxX - minX + maxY - minY);
  const [first] = intersectPaths({ segments: [line(at, movePoint(at, reach))] }, cutting);
  return first && distance(at, first.point) > SAME_POINT ? first.point : undefined;
};
