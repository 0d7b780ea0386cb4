import { tangentOn } from './evaluate.ts';
import { isClosed, type Path } from './path.ts';
import { CORNER_TURN } from './tolerance.ts';
import { magnitude, turn } from './vector.ts';

/**
 * The numbers of the segments before whose start the path turns by more than CORNER_TURN, in order; 0 can be among them only when
 * the path is closed. Segments that are one point have no direction and are passed over.
 */
export const cornersOf = (path: Path): number[] => {
  const drawn = [...path.segments.entries()].filter(([, s]) => magnitude(tangentOn(s, 0)) > 0);
  const corners: number[] = [];
  for (const [place, [index, segment]] of drawn.entries()) {
    if (place === 0 && !isClosed(path)) continue;
    const [, before] = drawn.at(place - 1)!;
    if (Math.abs(turn(tangentOn(before, 1), tangentOn(segment, 0))) > CORNER_TURN) corners.push(index);
  }
  return corners;
};
