import type { Picture } from '../picture.ts';
import type { EdgeReading } from './edge-reading.ts';
import type { ProfileReader } from './profile-reader.ts';
import { emptyProfile, profileSampler } from './sample-profile.ts';
import type { Stations } from './stations.ts';

/**
 * What is read at each station, from the mean of its profile and its two neighbours', which follows the outline's bend; undefined
 * outside the picture, near corners, and where the reader finds nothing.
 */
export const readStations = (
  picture: Picture,
  stations: Stations,
  { half, read }: ProfileReader,
  pxPerMm: number,
): (EdgeReading | undefined)[] => {
  const { count, x, y, nx, ny, blunt } = stations;
  const sample = profileSampler(picture);
  const mean = emptyProfile(half, pxPerMm);
  const three = [emptyProfile(half, pxPerMm), emptyProfile(half, pxPerMm), emptyProfile(half, pxPerMm)];
  const [a, b, c] = three.map((profile) => profile.light) as [Float64Array, Float64Array, Float64Array];
  const take = (k: number): void => {
    const at = k % count;
    sample(three[k % 3]!, x[at]!, y[at]!, nx[at]!, ny[at]!);
  };
  const outside = (k: number): boolean =>
    !(x[k]! >= 0 && y[k]! >= 0 && x[k]! <= picture.width && y[k]! <= picture.height);

  const taken: (EdgeReading | undefined)[] = [];
  // The numbers run from `count` on, so that the one before the first is no special case; `sampled` is the last profile taken.
  let sampled = -1;
  for (let k = count; k < 2 * count; k++) {
    if (blunt[k - count] === 1 || outside(k - count)) {
      taken.push(undefined);
      continue;
    }
    for (let n = Math.max(sampled + 1, k - 1); n <= k + 1; n++) take(n);
    sampled = k + 1;
    for (let i = 0; i < a.length; i++) mean.light[i] = (a[i]! + b[i]! + c[i]!) / 3;
    taken.push(read(mean));
  }
  return taken;
};
