/**
 * The offset of runs end to end. Most outlines need no more than their parallels and corners; clearance then says whether that
 * already is the answer. Where it is not, the parallels are laid out long, cut where they cross, and what is too near is dropped.
 */

import { StaywrightError } from '../errors.ts';
import { clearanceOf, chordCount, type Clearance } from './offset-clearance.ts';
import { cutLoops } from './offset-loops.ts';
import { offsetSegment } from './offset-segment.ts';
import { offsetSource, type Source } from './offset-source.ts';
import { strandFoot, strandPoint, type Strand } from './offset-strand.ts';
import { layStrands } from './offset-strands.ts';
import { pathEnd, pathStart, type Path } from './path.ts';
import { between, distance as distanceBetween } from './point.ts';
import { line, type Segment } from './segment.ts';
import { CHORD_ERROR, OFFSET_CRUMB, SAME_POINT } from './tolerance.ts';
import { withoutCrumbs } from './without-crumbs.ts';

export interface OffsetRun {
  readonly path: Path;
  readonly distance: number;
}

export const offsetRuns = (runs: readonly OffsetRun[], closed: boolean, tolerance: number): readonly Path[] => {
  const sources = sourcesOf(runs, closed);
  if (runs.every((run) => run.distance === 0)) return runs.map((run) => run.path);
  const laid = layStrands(sources, closed, true);
  const clearance = clearanceOf(sources, closed, laid.strands);
  const strands =
    laid.whole && isClear(laid.strands, sources, clearance)
      ? laid.strands
      : cutLoops(layStrands(sources, closed, false).strands, sources, clearance, closed);
  return pathsOf(welded(strands, closed), sources, runs.length, tolerance);
};

const sourcesOf = (runs: readonly OffsetRun[], closed: boolean): readonly Source[] => {
  const sources: Source[] = [];
  for (const [run, { path, distance }] of runs.entries()) {
    if (!Number.isFinite(distance)) throw new StaywrightError('usage', `a width must be a number, not ${distance}`);
    const next = runs[(run + 1) % runs.length]!;
    const last = run === runs.length - 1;
    if ((closed || !last) && distanceBetween(pathEnd(path), pathStart(next.path)) > SAME_POINT) {
      throw new StaywrightError('input', 'the outline does not close', { where: `run ${run}` });
    }
    for (const segment of withoutCrumbs(path, OFFSET_CRUMB).segments) {
      const source = offsetSource(segment, run, distance);
      if (source !== undefined) sources.push(source);
    }
  }
  if (sources.length === 0) throw new StaywrightError('impossible', 'the outline is a single point');
  return sources;
};

/** Whether every strand, looked at as densely as its source bends, keeps clear of the whole path. */
const isClear = (strands: readonly Strand[], sources: readonly Source[], clearance: Clearance): boolean =>
  strands.every((strand) => {
    const source = sources[strand.source]!;
    if (source.distance === 0 && strand.kind === 'parallel') return true;
    const looks = strand.kind === 'line' ? 1 : 2 * chordCount(source, CHORD_ERROR);
    const free = strand.corner !== undefined && !strand.corner.even ? strand.corner : undefined;
    for (let k = 0; k <= looks; k += 1) {
      const t = strand.from + ((strand.to - strand.from) * k) / looks;
      const asked = { source: strand.source, foot: strandFoot(strand, source, t), free, exact: false };
      if (clearance.isTooNear(strandPoint(strand, source, t), asked)) return false;
    }
    return true;
  });

/** Each strand from the very point where the one before it ends: half-way between two ends that only touch. */
const welded = (strands: readonly Strand[], closed: boolean): readonly Strand[] => {
  const count = strands.length;
  const joints = strands.map((strand, i) => {
    if (i === count - 1 && !closed) return strand.end;
    return between(strand.end, strands[(i + 1) % count]!.start, 0.5);
  });
  return strands.map((strand, i) => ({
    ...strand,
    start: i === 0 && !closed ? strand.start : joints[(i + count - 1) % count]!,
    end: joints[i]!,
  }));
};

/** The strands as segments, run by run. */
const pathsOf = (
  strands: readonly Strand[],
  sources: readonly Source[],
  runs: number,
  tolerance: number,
): readonly Path[] => {
  const segments: Segment[][] = Array.from({ length: runs }, () => []);
  let drawn: Strand | undefined;
  for (const strand of strands) {
    const source = sources[strand.source]!;
    const own = segments[source.run]!;
    const previous = own[own.length - 1];
    if (previous !== undefined && drawn !== undefined && isOneLine(drawn, strand, source)) {
      own[own.length - 1] = line(previous.start, strand.end);
    } else if (strand.kind === 'line') own.push(line(strand.start, strand.end));
    else own.push(...offsetSegment(source, strand.from, strand.to, strand.start, strand.end, tolerance));
    drawn = strand;
  }
  const vanished = segments.findIndex((own) => own.every((segment) => reachOf(segment) < SAME_POINT));
  if (vanished >= 0) {
    throw new StaywrightError('impossible', 'nothing is left of a run between its neighbours', {
      where: `run ${vanished}`,
      cause: { run: vanished },
      hint: 'use a lesser width there',
    });
  }
  return segments.map((own) => withoutCrumbs({ segments: own }, OFFSET_CRUMB));
};

/** Whether two strands are parts of one straight line: a straight source's parallel and what a corner adds to it. */
const isOneLine = (first: Strand, second: Strand, source: Source): boolean =>
  source.straight && first.source === second.source && !first.corner?.step && !second.corner?.step;

/** How far the segment's points lie from its start. */
const reachOf = ({ start, end, ...rest }: Segment): number =>
  Math.max(
    distanceBetween(start, end),
    ...('startHandle' in rest
      ? [distanceBetween(start, rest.startHandle), distanceBetween(start, rest.endHandle)]
      : []),
  );
