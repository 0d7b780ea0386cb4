import { signedArea } from '../geometry/area.ts';
import { pathBox, type Box } from '../geometry/box.ts';
import { flattenPath } from '../geometry/flatten.ts';
import type { Path } from '../geometry/path.ts';
import { between, point, type Point } from '../geometry/point.ts';
import type { Outline } from '../pattern/drawing.ts';

/** A drawn outline with what sorting asks of it again and again. */
export interface Shape {
  readonly outline: Outline;
  readonly path: Path;
  readonly box: Box;
  readonly area: number;
  /** Points along it, close enough together to tell inside from outside by. */
  readonly samples: readonly Point[];
}

/** How far the chords between the samples may lie off the line: ample for telling shapes apart. */
const SAMPLE_TOLERANCE = 0.5;

export const shapeOf = (outline: Outline): Shape => ({
  outline,
  path: outline.path,
  box: pathBox(outline.path),
  area: Math.abs(signedArea(outline.path)),
  samples: withMiddles(flattenPath(outline.path, SAMPLE_TOLERANCE)),
});

/** A straight side is seen at its ends alone otherwise, and those may lie on another outline. */
const withMiddles = (points: readonly Point[]): Point[] =>
  points.flatMap((p, at) => (at === 0 ? [p] : [between(points[at - 1]!, p, 0.5), p]));

/** The longer side of its upright box, in millimetres. */
export const sizeOf = ({ box }: Shape): number => Math.max(box.maxX - box.minX, box.maxY - box.minY);

export const middleOf = ({ box }: Shape): Point => point((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2);

/** How a message points at an outline: its id if it has one, its place and size. */
export const describeShape = (shape: Shape): string => {
  const { box, outline } = shape;
  const size = `${Math.round(box.maxX - box.minX)} x ${Math.round(box.maxY - box.minY)} mm`;
  return `${outline.id ?? 'one without id'} at ${describePoint(middleOf(shape))} (${size})`;
};

/** A place of the drawing in whole millimetres. */
export const describePoint = (p: Point): string => `${Math.round(p.x)},${Math.round(p.y)}`;
