import { pointOn, tangentOn } from '../../geometry/evaluate.ts';
import { nearestPoint } from '../../geometry/nearest-point.ts';
import type { Location, Path } from '../../geometry/path.ts';
import type { Point } from '../../geometry/point.ts';
import { leftNormal } from '../../geometry/vector.ts';
import { edgeReader, type EdgeReader } from '../outline/edge-reader.ts';
import type { Picture } from '../picture.ts';
import { medianOf } from '../quantile-of.ts';

const REACH = 0.4;
const PLACES = 5;
/** From a mark to where the outline beside it is looked at, millimetres. */
const BESIDE = 1.6;

const contrastAt = (read: EdgeReader, outline: Path, { segment, t }: Location): number | undefined => {
  const s = outline.segments[segment]!;
  return read(pointOn(s, t), leftNormal(tangentOn(s, t)))?.contrast;
};

/** The contrast of an outline's ink in most places. */
export const outlineContrast = (picture: Picture, outline: Path, pxPerMm: number): number | undefined => {
  const read = edgeReader(picture, 'ink', pxPerMm, REACH * pxPerMm);
  const found: number[] = [];
  for (const segment of outline.segments.keys()) {
    for (let k = 1; k < PLACES; k += 1) {
      const contrast = contrastAt(read, outline, { segment, t: k / PLACES });
      if (contrast !== undefined) found.push(contrast);
    }
  }
  return found.length === 0 ? undefined : medianOf(found);
};

/** The contrast of an outline's ink to both sides of a place on it, where it may have faded; nothing if it cannot be read there. */
export const contrastBeside = (
  picture: Picture,
  outline: Path,
  { at, tangent }: { readonly at: Point; readonly tangent: { readonly dx: number; readonly dy: number } },
  pxPerMm: number,
): number | undefined => {
  const read = edgeReader(picture, 'ink', pxPerMm, REACH * pxPerMm);
  const sides = [-1, 1].flatMap((way) => {
    const by = way * BESIDE * pxPerMm;
    const { location } = nearestPoint(outline, { x: at.x + tangent.dx * by, y: at.y + tangent.dy * by });
    return contrastAt(read, outline, location) ?? [];
  });
  return sides.length === 0 ? undefined : sides.reduce((sum, c) => sum + c, 0) / sides.length;
};
