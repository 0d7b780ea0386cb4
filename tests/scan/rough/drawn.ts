import type { Picture } from '../../../src/scan/picture.ts';

/** White paper at 6 pixels a millimetre with black strokes half a millimetre wide. */
export const drawn = (
  width: number,
  height: number,
  strokes: readonly (readonly [number, number, number, number])[],
): Picture => {
  const px = 6;
  const picture = { width: width * px, height: height * px, grey: new Uint8Array(width * px * height * px).fill(240) };
  for (const [x0, y0, x1, y1] of strokes) {
    const steps = Math.ceil(Math.hypot(x1 - x0, y1 - y0) * px * 2);
    for (let k = 0; k <= steps; k += 1) {
      const [x, y] = [(x0 + ((x1 - x0) * k) / steps) * px, (y0 + ((y1 - y0) * k) / steps) * px];
      for (let v = Math.round(y - 1.5); v < Math.round(y + 1.5); v += 1) {
        for (let u = Math.round(x - 1.5); u < Math.round(x + 1.5); u += 1) picture.grey[v * picture.width + u] = 30;
      }
    }
  }
  return picture;
};

/** The sides of a rectangle as strokes. */
export const box = (x: number, y: number, w: number, h: number): [number, number, number, number][] => [
  [x, y, x + w, y],
  [x + w, y, x + w, y + h],
  [x + w, y + h, x, y + h],
  [x, y + h, x, y],
];
