import { tangentOn } from '../geometry/evaluate.ts';
import type { Path } from '../geometry/path.ts';
import { between, distance, movePoint, samePoint, type Point } from '../geometry/point.ts';
import type { Segment } from '../geometry/segment.ts';
import { CORNER_TURN, JOIN_GAP } from '../geometry/tolerance.ts';
import { cross, scaled, vectorTo, type Vector } from '../geometry/vector.ts';

/** Where two lines through points cross, unless they run within CORNER_TURN of parallel. */
const crossing = (p: Point, along: Vector, q: Point, other: Vector): Point | undefined => {
  const sine = cross(along, other);
  if (Math.abs(sine) < Math.sin(CORNER_TURN)) return undefined;
  return movePoint(p, scaled(along, cross(vectorTo(p, q), other) / sine));
};

/** Where an end and the start after it meet: at the crossing of their tangents if that is near both, else half-way between them. */
const meeting = (before: Segment, after: Segment): Point => {
  const [end, start] = [before.end, after.start];
  if (samePoint(end, start)) return end;
  const at = crossing(end, tangentOn(before, 1), start, tangentOn(after, 0));
  const isNear = at && distance(at, end) <= JOIN_GAP && distance(at, start) <= JOIN_GAP;
  return isNear ? at : between(end, start, 0.5);
};

/** The segment with its ends moved by less than JOIN_GAP; handles go with their ends, so that directions stay. */
const withEnds = (segment: Segment, start: Point, end: Point): Segment =>
  segment.kind === 'line'
    ? { ...segment, start, end }
    : {
        ...segment,
        start,
        startHandle: movePoint(segment.startHandle, vectorTo(segment.start, start)),
        endHandle: movePoint(segment.endHandle, vectorTo(segment.end, end)),
        end,
      };

/** One closed path of pieces whose ends nearly meet, each piece's last segment brought to where it meets the next piece's first. */
export const closeGap = (paths: readonly Path[]): Path => {
  const joints = paths.map((path, i) => meeting(path.segments.at(-1)!, paths[(i + 1) % paths.length]!.segments[0]!));
  const segments = paths.flatMap((path, i) => {
    const [start, end] = [joints.at(i - 1)!, joints[i]!];
    const last = path.segments.length - 1;
    return path.segments.map((segment, n) =>
      withEnds(segment, n === 0 ? start : segment.start, n === last ? end : segment.end),
    );
  });
  return { segments: segments.filter((s) => s.kind === 'cubic' || !samePoint(s.start, s.end)) };
};
