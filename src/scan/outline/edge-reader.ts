import type { Point } from '../../geometry/point.ts';
import type { Vector } from '../../geometry/vector.ts';
import type { Picture } from '../picture.ts';
import type { OutlineEdge } from '../rough-outline.ts';
import type { EdgeReading } from './edge-reading.ts';
import { profileReader } from './profile-reader.ts';
import { emptyProfile, profileSampler } from './sample-profile.ts';

/** The mean of parallel profiles up to this far to both sides is read, which halves the noise: millimetres, and at least a pixel. */
const PARALLELS = 0.085;

/** Reads an outline at one place along a unit normal; nothing outside the picture or where there is no clear line or edge. */
export type EdgeReader = (at: Point, normal: Vector) => EdgeReading | undefined;

/** As `measureEdge`, for many places of one kind: what a reading needs is set up once. */
export const edgeReader = (picture: Picture, edge: OutlineEdge, pxPerMm: number, reach: number): EdgeReader => {
  const { half, read } = profileReader(edge, pxPerMm, reach);
  const sample = profileSampler(picture);
  const mean = emptyProfile(half, pxPerMm);
  const one = emptyProfile(half, pxPerMm);
  const side = Math.max(1, Math.round(PARALLELS * pxPerMm));
  return ({ x, y }, { dx, dy }) => {
    if (x < 0 || y < 0 || x > picture.width || y > picture.height) return undefined;
    mean.light.fill(0);
    for (let s = -side; s <= side; s++) {
      sample(one, x - s * dy, y + s * dx, dx, dy);
      for (let k = 0; k < one.light.length; k++) mean.light[k]! += one.light[k]! / (2 * side + 1);
    }
    return read(mean);
  };
};
