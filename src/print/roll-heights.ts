import { LONGEST_PAGE } from './paper-size.ts';

const MOST = 60;

/** Lengths of a roll to try, from the shortest that could hold pieces of these sides up to all of them one under the other. */
export const rollHeights = (sides: readonly (readonly [number, number])[], width: number): number[] => {
  const area = sides.reduce((sum, [w, h]) => sum + w * h, 0);
  const most = Math.max(
    LONGEST_PAGE,
    sides.reduce((sum, [w, h]) => sum + Math.max(w, h), 0),
  );
  const least = Math.max(area / width, ...sides.map(([w, h]) => Math.min(w, h)));
  // Hundreds of pieces fill a roll so evenly that finer steps would save nothing.
  const growth = sides.length > 40 ? 1.12 : 1.03;
  const heights: number[] = [];
  for (let height = least; heights.length < MOST && height < most; height *= growth) heights.push(height);
  return [...heights, most];
};
