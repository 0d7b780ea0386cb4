/**
 * One fair line out of pieces that were moved apart or over each other: away from the gaps each piece stays as it is; over a zone on
 * either side of a gap one cubic leads from piece to piece, tangent to both.
 */

import { locationAtLength, pathLength } from '../../geometry/arc-length.ts';
import { cornersOf } from '../../geometry/corners.ts';
import { pointOn, tangentOn } from '../../geometry/evaluate.ts';
import { joinPaths } from '../../geometry/join-paths.ts';
import type { Location, Path } from '../../geometry/path.ts';
import { distance, movePoint, type Point } from '../../geometry/point.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import { cubic, line, type Segment } from '../../geometry/segment.ts';
import { subPath } from '../../geometry/sub-path.ts';
import { LENGTH_TOLERANCE, SAME_POINT } from '../../geometry/tolerance.ts';
import { cross, dot, scaled, turn, unit, vectorTo, type Vector } from '../../geometry/vector.ts';

/** A bridge takes in four times the gap on either side, and at least 15 mm: what a hand draws over it with a curve. */
const ZONE_PER_GAP = 4;
const SHORTEST_ZONE = 15;

/** But no more than a third of a piece; together with what an overlap covers, never half of it. */
const ZONE_OF_PIECE = 1 / 3;
const MOST_OF_PIECE = 0.48;

/** A corner of the edge stays one, unless it lies nearer to the gap than this, or within an overlap. */
const CORNER_KEPT = 0.5;

/** A bridge that begins at a corner begins so little past it, in millimetres, that it surely has the tangent beyond. */
const PAST_CORNER = 2 * LENGTH_TOLERANCE;

/** Where a piece bends so much within the zone that no bridge could lead forward, these parts of the zone are tried. */
const PARTS_OF_ZONE = [1, 1 / 2, 1 / 4, 1 / 8] as const;

/** Between slashes a piece that leaves a bridge less than half of the zone it wants makes the line a wave. */
const LEAST_OF_ZONE = 1 / 2;

const wantedZone = (gap: number): number => Math.max(SHORTEST_ZONE, ZONE_PER_GAP * Math.abs(gap));

/** Whether pieces between two gaps are too short for fair bridges. */
export const isCrowded = (pieces: readonly Path[], gap: number): boolean =>
  pieces.slice(1, -1).some((piece) => pathLength(piece) * ZONE_OF_PIECE < wantedZone(gap) * LEAST_OF_ZONE);

/** Where a bridge may begin on a piece that ends at the gap: how far from that end. */
const zoneOf = (piece: Path, gap: number): number => {
  const length = pathLength(piece);
  const overlap = Math.max(0, -gap);
  const wide = wantedZone(gap) + overlap;
  const zone = Math.min(wide, length * ZONE_OF_PIECE + overlap, length * MOST_OF_PIECE);
  const corner = cornersOf(piece).at(-1);
  if (corner === undefined) return zone;
  const toCorner = pathLength({ segments: piece.segments.slice(corner) });
  return toCorner > Math.max(CORNER_KEPT, overlap) ? Math.min(zone, toCorner - PAST_CORNER) : zone;
};

interface Bank {
  readonly location: Location;
  readonly point: Point;
  readonly tangent: Vector;
}

interface Bridge {
  readonly from: Bank;
  readonly to: Bank;
  readonly bridged: Segment;
}

const bankAt = (piece: Path, length: number): Bank => {
  const location = locationAtLength(piece, length);
  const segment = piece.segments[location.segment]!;
  return { location, point: pointOn(segment, location.t), tangent: tangentOn(segment, location.t) };
};

/** A cubic with both tangents, which is the arc where they are those of one; a line where it would be straight; undefined if backwards. */
const bridge = (from: Bank, to: Bank): Segment | undefined => {
  const span = vectorTo(from.point, to.point);
  const along = unit(span);
  if (dot(along, from.tangent) <= 0 || dot(along, to.tangent) <= 0) return undefined;
  const bend = turn(from.tangent, to.tangent);
  const handle = distance(from.point, to.point) / (3 * Math.cos(bend / 4) ** 2);
  const off = handle * Math.max(Math.abs(cross(along, from.tangent)), Math.abs(cross(along, to.tangent)));
  if (off < SAME_POINT) return line(from.point, to.point);
  return cubic(
    from.point,
    movePoint(from.point, scaled(from.tangent, handle)),
    movePoint(to.point, scaled(to.tangent, -handle)),
    to.point,
  );
};

const bridgePieces = (piece: Path, next: Path, gap: number): Bridge | undefined => {
  const [length, zone, reach] = [pathLength(piece), zoneOf(piece, gap), zoneOf(reversePath(next), gap)];
  for (const part of PARTS_OF_ZONE) {
    const [from, to] = [bankAt(piece, length - zone * part), bankAt(next, reach * part)];
    const bridged = bridge(from, to);
    if (bridged !== undefined) return { from, to, bridged };
  }
  return undefined;
};

/**
 * The pieces, which follow each other, as one path whose two ends are theirs. `gap` is how far neighbours lie apart, negative where
 * they overlap. Undefined where overlaps leave nothing of a piece.
 */
export const bridgeGaps = (pieces: readonly Path[], gap: number): Path | undefined => {
  const run: Path[] = [];
  let from: Bank = bankAt(pieces[0]!, 0);
  for (const [index, piece] of pieces.entries()) {
    const next = pieces[index + 1];
    if (next === undefined) {
      run.push(subPath(piece, from.location, { segment: piece.segments.length - 1, t: 1 }));
      break;
    }
    const built = bridgePieces(piece, next, gap);
    if (built === undefined) return undefined;
    run.push(subPath(piece, from.location, built.from.location), { segments: [built.bridged] });
    from = built.to;
  }
  return joinPaths(...run);
};
