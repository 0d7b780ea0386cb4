import type { Picture } from '../picture.ts';
import type { Stations } from './stations.ts';

/** Whether no more than two greys lie along an outline and up to `reach` pixels to both sides: whatever scanned it chose one of the two. */
export const isBilevel = ({ width, height, grey }: Picture, stations: Stations, reach: number): boolean => {
  const seen: number[] = [];
  for (let k = 0; k < stations.count; k++) {
    for (let along = -reach; along <= reach; along++) {
      const i = Math.floor(stations.x[k]! + along * stations.nx[k]!);
      const j = Math.floor(stations.y[k]! + along * stations.ny[k]!);
      if (i < 0 || j < 0 || i >= width || j >= height) continue;
      const value = grey[j * width + i]!;
      if (seen.includes(value)) continue;
      if (seen.push(value) > 2) return false;
    }
  }
  return true;
};
