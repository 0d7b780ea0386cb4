/**
 * The places of an outline that may be corners of its panel: its joints that turn outwards and, on a cutting line, short runs that
 * stand for a corner which was bevelled, rounded or cut square. Such a run belongs to no edge: its neighbours run on to where they meet.
 */

import { segmentLength } from '../geometry/arc-length.ts';
import { cornersOf } from '../geometry/corners.ts';
import { pointOn, tangentOn } from '../geometry/evaluate.ts';
import type { Location, Path } from '../geometry/path.ts';
import { movePoint, type Point } from '../geometry/point.ts';
import { cross, scaled, turn, vectorTo, type Vector } from '../geometry/vector.ts';

export interface Candidate {
  /** Where the edge before ends and the edge after begins; the same place for a plain corner. */
  readonly from: Location;
  readonly to: Location;
  readonly at: Point;
  /** Directions of travel just before and just after. */
  readonly into: Vector;
  readonly out: Vector;
  /** Radians; positive outwards. */
  readonly turn: number;
  readonly run: 'none' | 'bevelled' | 'rounded';
  /** A bend without a joint: the outline turns nowhere at once. */
  readonly smooth: boolean;
}

/** A joint that turns by more is a corner of itself, whatever bends beside it: no part of a rounding, which goes over into its edges. */
export const TRUE_TURN = (20 * Math.PI) / 180;

/** A joint that turns by less is part of an edge. */
const LEAST_TURN = (12 * Math.PI) / 180;

/** What a run that stands for a corner turns by in all: less is a bend of an edge, more is the end of a strap. */
const [LEAST_RUN_TURN, MOST_RUN_TURN] = [(40 * Math.PI) / 180, (150 * Math.PI) / 180];

/** The longest such run in millimetres: the bevel across two allowances of an inch and a bit. */
const LONGEST_RUN = 45;

/** How far the neighbours may have to run on, in millimetres. */
const LONGEST_REACH = 60;

/** A curve that turns by less is no rounded corner. */
const LEAST_ROUND_TURN = (10 * Math.PI) / 180;

/** Of a closed clockwise outline. `trimmed` asks for the runs as well; `width` is the panel's shorter side. */
export const cornerCandidates = (outline: Path, trimmed: boolean, width: number): Candidate[] => {
  const joints = cornersOf(outline);
  const plain = joints.map((joint) => plainCorner(outline, joint)).filter((corner) => corner.turn > LEAST_TURN);
  if (!trimmed) return [...plain, ...roundedCorners(outline, joints, width).map((run) => middleOf(outline, run))];
  const runs = [...bevelledCorners(outline, joints, width), ...roundedCorners(outline, joints, width)];
  return [...plain, ...runs.flatMap((run) => run.corner ?? [])];
};

/** The corner at the joint before a segment. */
export const plainCorner = (outline: Path, joint: number): Candidate => {
  const { segments } = outline;
  const into = tangentOn(segments.at(joint - 1)!, 1);
  const out = tangentOn(segments[joint]!, 0);
  const place = { segment: joint, t: 0 };
  return {
    from: place,
    to: place,
    at: segments[joint]!.start,
    into,
    out,
    turn: turn(into, out),
    run: 'none',
    smooth: false,
  };
};

interface Run {
  readonly first: number;
  readonly count: number;
  readonly corner: Candidate | undefined;
}

/** Runs between two corners, or three, that follow each other closely; where a run goes smoothly over into an edge it is no bevel. */
const bevelledCorners = (outline: Path, joints: readonly number[], width: number): Run[] =>
  joints.flatMap((joint, at) =>
    [1, 2].flatMap((steps) => {
      if (joints.length <= steps + 1) return [];
      const last = joints[(at + steps) % joints.length]!;
      if ([joint, last].some((end) => Math.abs(plainCorner(outline, end).turn) < LEAST_TURN)) return [];
      const count = (last - joint + outline.segments.length) % outline.segments.length;
      const run = runOf(outline, joint, count, 'bevelled');
      return lengthOf(outline, joint, count) <= Math.min(LONGEST_RUN, width / 2) && run.corner !== undefined
        ? [run]
        : [];
    }),
  );

/** Runs of short curves that turn outwards without a corner among them or at their ends. */
const roundedCorners = (outline: Path, joints: readonly number[], width: number): Run[] => {
  const total = outline.segments.length;
  const bends = outline.segments.map(
    (segment) => segmentLength(segment) <= LONGEST_RUN && turning(segment) >= LEAST_ROUND_TURN,
  );
  return bends.flatMap((bend, first) => {
    const before = (first - 1 + total) % total;
    if (!bend || (bends[before]! && !joints.includes(first))) return [];
    let count = 1;
    while (count < total && bends[(first + count) % total]! && !joints.includes((first + count) % total)) count += 1;
    if (lengthOf(outline, first, count) > Math.min(LONGEST_RUN, width)) return [];
    if ([first, (first + count) % total].some((joint) => Math.abs(plainCorner(outline, joint).turn) > TRUE_TURN)) {
      return [];
    }
    const run = runOf(outline, first, count, 'rounded');
    return run.corner === undefined ? [] : [run];
  });
};

const runOf = (outline: Path, first: number, count: number, kind: 'bevelled' | 'rounded'): Run => {
  const { segments } = outline;
  const next = (first + count) % segments.length;
  const into = tangentOn(segments.at(first - 1)!, 1);
  const out = tangentOn(segments[next]!, 0);
  const whole = turn(into, out);
  const start = segments[first]!.start;
  const reach = cross(vectorTo(start, segments[next]!.start), out) / cross(into, out);
  const back = cross(vectorTo(start, segments[next]!.start), into) / cross(into, out);
  const sound =
    whole >= LEAST_RUN_TURN &&
    whole <= MOST_RUN_TURN &&
    reach > 0 &&
    reach <= LONGEST_REACH &&
    back < 0 &&
    -back <= LONGEST_REACH;
  const from = { segment: first, t: 0 };
  const corner = {
    from,
    to: { segment: next, t: 0 },
    at: movePoint(start, scaled(into, reach)),
    into,
    out,
    turn: whole,
    run: kind,
    smooth: kind === 'rounded',
  };
  return { first, count, corner: sound ? corner : undefined };
};

/** The corner of a rounded stitching line, which keeps its shape: the middle of the run. */
const middleOf = (outline: Path, run: Run): Candidate => {
  const { segments } = outline;
  const whole = lengthOf(outline, run.first, run.count);
  let before = 0;
  for (let step = 0; step < run.count; step += 1) {
    const segment = (run.first + step) % segments.length;
    const length = segmentLength(segments[segment]!);
    if (before + length >= whole / 2) {
      const t = (whole / 2 - before) / length;
      const place = { segment, t };
      return { ...run.corner!, from: place, to: place, at: pointOn(segments[segment]!, t), run: 'none' };
    }
    before += length;
  }
  return plainCorner(outline, run.first);
};

const lengthOf = (outline: Path, first: number, count: number): number => {
  let length = 0;
  for (let step = 0; step < count; step += 1) {
    length += segmentLength(outline.segments[(first + step) % outline.segments.length]!);
  }
  return length;
};

/** Radians by which a segment turns from its start to its end; positive outwards. */
const turning = (segment: Path['segments'][number]): number => {
  const [a, b, c] = [0, 0.5, 1].map((t) => tangentOn(segment, t));
  return turn(a!, b!) + turn(b!, c!);
};
