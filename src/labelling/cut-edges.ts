import { nearestPoint } from '../geometry/nearest-point.ts';
import { pathEnd, pathStart, type Path } from '../geometry/path.ts';
import { samePoint, type Point } from '../geometry/point.ts';
import { line } from '../geometry/segment.ts';
import { subPath } from '../geometry/sub-path.ts';
import { SAME_POINT } from '../geometry/tolerance.ts';
import type { Edge } from '../pattern/panel.ts';
import type { Candidate } from './corner-candidates.ts';
import type { FourCorners } from './find-corners.ts';

/** Parts a closed clockwise outline at its four corners: top, seam to the back, bottom, seam to the front. */
export const cutEdges = (outline: Path, corners: FourCorners, backSeam: string, frontSeam: string): Edge[] => {
  const edge = (name: string, from: Candidate, to: Candidate): Edge => ({ name, path: runBetween(outline, from, to) });
  return [
    edge('top', corners['top-front'], corners['top-back']),
    edge(backSeam, corners['top-back'], corners['bottom-back']),
    edge('bottom', corners['bottom-back'], corners['bottom-front']),
    edge(frontSeam, corners['bottom-front'], corners['top-front']),
  ];
};

/** The run from one corner to the next; where a corner stands for a bevel the run goes on straight to where the edges meet. */
export const runBetween = (outline: Path, from: Candidate, to: Candidate): Path => {
  const run = subPath(outline, from.to, to.from);
  const segments = [...run.segments];
  if (from.run !== 'none') segments.unshift(line(from.at, pathStart(run)));
  if (to.run !== 'none') segments.push(line(pathEnd(run), to.at));
  return { segments: mergeLines(segments) };
};

/** Straight pieces that go on in one line become one, so that running an edge on adds no node to it. */
const mergeLines = (segments: Path['segments']): Path['segments'] => {
  const merged = [segments[0]!];
  for (const next of segments.slice(1)) {
    const last = merged.at(-1)!;
    if (last.kind === 'line' && next.kind === 'line' && liesOn(last.start, next.end, last.end)) {
      merged[merged.length - 1] = line(last.start, next.end);
    } else if (!samePoint(next.start, next.end) || next.kind === 'cubic') merged.push(next);
  }
  return merged;
};

const liesOn = (start: Point, end: Point, p: Point): boolean =>
  nearestPoint({ segments: [line(start, end)] }, p).distance <= SAME_POINT / 10;
