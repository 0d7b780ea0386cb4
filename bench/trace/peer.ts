import type { Path } from '../../src/geometry/path.ts';
import type { Picture } from '../../src/scan/picture.ts';

/** A tracer that knows nothing of panels: every closed contour of what is darker than `level`, in picture places. */
export interface Peer {
  readonly name: string;
  readonly trace: (picture: Picture, level: number) => Path[];
}
