import { pathStart, type Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';

/** Numbers as they are, so that what was rounded before stays so; never `-0`. */
const show = ({ x, y }: Point): string => `${x + 0},${y + 0}`;

/** Absolute `M`, `L` and `C`, one segment to a line. */
export const writePath = (path: Path, newline: string): string => {
  const lines = path.segments.map((segment) =>
    segment.kind === 'line'
      ? `L ${show(segment.end)}`
      : `C ${show(segment.startHandle)} ${show(segment.endHandle)} ${show(segment.end)}`,
  );
  return [`M ${show(pathStart(path))}`, ...lines].join(newline);
};
