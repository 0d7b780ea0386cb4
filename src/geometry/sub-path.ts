import { isClosed, type Location, type Path } from './path.ts';
import { line, type Segment } from './segment.ts';
import { splitSegment, subSegment } from './split.ts';

const isBefore = (a: Location, b: Location): boolean => a.segment + a.t <= b.segment + b.t;

/**
 * The open part of `path` from one place to another; whole segments in it are the very same objects.
 * On a closed path it may run through the joint. No segment of no length is left at the cuts; from a place to itself it is one point.
 * An open path cannot be cut backwards: that throws.
 */
export const subPath = (path: Path, from: Location, to: Location): Path => {
  const { segments } = path;
  const first = segments[from.segment]!;
  const last = segments[to.segment]!;
  if (from.segment === to.segment && from.t <= to.t) {
    if (from.t < to.t) return { segments: [subSegment(first, from.t, to.t)] };
    const at = splitSegment(first, from.t)[1].start;
    return { segments: [line(at, at)] };
  }
  const wraps = !isBefore(from, to);
  if (wraps && !isClosed(path)) throw new Error('an open path cannot be cut backwards');
  const kept: Segment[] = [];
  if (from.t < 1) kept.push(subSegment(first, from.t, 1));
  if (wraps) kept.push(...segments.slice(from.segment + 1), ...segments.slice(0, to.segment));
  else kept.push(...segments.slice(from.segment + 1, to.segment));
  if (to.t > 0) kept.push(subSegment(last, 0, to.t));
  if (kept.length === 0) kept.push(line(first.end, first.end));
  return { segments: kept };
};
