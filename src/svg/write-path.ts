import { samePoint, type Point } from '../geometry/point.ts';
import { pathEnd, pathStart, type Path } from '../geometry/path.ts';
import type { Edge } from '../pattern/panel.ts';
import { formatNumber } from './format-number.ts';

const rounded = ({ x, y }: Point): string => `${formatNumber(x)},${formatNumber(y)}`;
const exact = ({ x, y }: Point): string => `${x + 0},${y + 0}`;

/** Path data with one segment to a line; the first and last point as given, all others rounded. Segments that shrink to nothing are left out. */
const writeFromTo = (path: Path, start: string, end: string, newline: string): string => {
  const lines: string[] = [];
  let from = start;
  path.segments.forEach((segment, i) => {
    const isLast = i === path.segments.length - 1;
    const to = isLast ? end : rounded(segment.end);
    const isNothing =
      from === to &&
      (segment.kind === 'line' || (rounded(segment.startHandle) === from && rounded(segment.endHandle) === to));
    if (isNothing && !(isLast && lines.length === 0)) return;
    const handles = segment.kind === 'line' ? '' : `${rounded(segment.startHandle)} ${rounded(segment.endHandle)} `;
    lines.push(`${segment.kind === 'line' ? 'L' : 'C'} ${handles}${to}`);
    from = to;
  });
  return [`M ${start}`, ...lines].join(newline);
};

/** Absolute `M`, `L` and `C` with at most 3 decimals, one segment to a line. */
export const writePath = (path: Path, newline: string): string =>
  writeFromTo(path, rounded(pathStart(path)), rounded(pathEnd(path)), newline);

/** A point as the neighbour at it has it: as rounded there, or exactly as its text holds it. */
const shared = (neighbour: Edge, p: Point): string => (neighbour.text === undefined ? rounded(p) : exact(p));

/**
 * The path data of each edge of an outline. An edge with its own text keeps it; where its neighbour has none, the point that they share
 * is written exactly as the text holds it, so that edges still meet. Throws a plain Error (a bug) where edges do not meet.
 */
export const writeEdges = (edges: readonly Edge[], newline: string): string[] =>
  edges.map((edge, i) => {
    const before = edges.at(i - 1)!;
    const after = edges[(i + 1) % edges.length]!;
    const [start, end] = [pathStart(edge.path), pathEnd(edge.path)];
    if (!samePoint(end, pathStart(after.path)))
      throw new Error(`edge ${edge.name} does not end where ${after.name} begins`);
    if (edge.text !== undefined) return edge.text;
    return writeFromTo(edge.path, shared(before, start), shared(after, end), newline);
  });
