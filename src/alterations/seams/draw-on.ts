import { segmentLength } from '../../geometry/arc-length.ts';
import { tangentOn } from '../../geometry/evaluate.ts';
import { growCubic } from '../../geometry/grow-cubic.ts';
import type { Path } from '../../geometry/path.ts';
import { turn } from '../../geometry/vector.ts';

/** A curve goes on along itself at most once its own length: farther, the rounding of its handles would show. */
const FARTHEST = 2;

/** An edge that is only made longer keeps its own curve until it has turned 20 degrees more; past that it could curl up. */
export const EDGE_TURN = Math.PI / 9;

const STEP = 1 / 32;

/** How much farther than the gap a curve is drawn on: enough for a seam that meets it at a slant. */
const AMPLE = 3;

/**
 * The path with a curved last piece drawn on as the same curve, amply over a gap of so many millimetres, until it has turned by `mostTurn`: an edge
 * that was trimmed by one alteration gets its own shape back from the opposite one. A straight last piece is left: it is extended along
 * itself anyhow.
 */
export const drawOn = (path: Path, gap: number, mostTurn: number): Path => {
  const last = path.segments.at(-1)!;
  if (last.kind === 'line') return path;
  const direction = tangentOn(last, 1);
  let longest = last;
  for (let t = 1 + STEP; t <= FARTHEST; t += STEP) {
    const longer = growCubic(last, t);
    if (Math.abs(turn(direction, tangentOn(longer, 1))) > mostTurn) break;
    longest = longer;
    if (segmentLength(longer) - segmentLength(last) > AMPLE * gap) break;
  }
  return longest === last ? path : { segments: [...path.segments.slice(0, -1), longest] };
};
