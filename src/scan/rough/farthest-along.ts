import type { InkPart } from './ink-parts.ts';

/** The pixel of a part that is farthest from `start`, gone along the part itself; `start` is one of its pixels. */
export const farthestAlong = ({ pixels }: InkPart, width: number, start: number): number => {
  const left = new Set(pixels);
  left.delete(start);
  const reached = [start];
  for (let k = 0; k < reached.length; k += 1) {
    const at = reached[k]!;
    for (const to of [
      at - 1,
      at + 1,
      at - width,
      at + width,
      at - width - 1,
      at - width + 1,
      at + width - 1,
      at + width + 1,
    ]) {
      if (left.delete(to)) reached.push(to);
    }
  }
  return reached.at(-1)!;
};
