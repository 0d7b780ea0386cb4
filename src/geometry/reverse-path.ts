import type { Path } from './path.ts';
import { cubic, line, type Segment } from './segment.ts';

const reverseSegment = (segment: Segment): Segment =>
  segment.kind === 'line'
    ? line(segment.end, segment.start)
    : cubic(segment.end, segment.endHandle, segment.startHandle, segment.start);

/** The same curve run the other way; twice gives the same numbers again. */
export const reversePath = (path: Path): Path => ({ segments: path.segments.map(reverseSegment).toReversed() });
