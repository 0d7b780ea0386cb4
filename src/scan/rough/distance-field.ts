/** Units of a distance field to the pixel. */
export const UNITS = 5;

/** How far each pixel is from the nearest one that is `value` in the mask, in fifths of a pixel, within 2 per cent or so (Borgefors 1986). */
export const distanceField = (mask: Uint8Array, value: number, width: number, height: number): Uint16Array => {
  const far = new Uint16Array(mask.length);
  const none = 0xffff - 2 * 7;
  for (let y = 0, at = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1, at += 1) {
      if (mask[at] === value) continue;
      let least = none;
      if (x > 0) least = Math.min(least, far[at - 1]! + 5);
      if (y > 0) {
        least = Math.min(least, far[at - width]! + 5);
        if (x > 0) least = Math.min(least, far[at - width - 1]! + 7);
        if (x < width - 1) least = Math.min(least, far[at - width + 1]! + 7);
      }
      far[at] = least;
    }
  }
  for (let y = height - 1, at = mask.length - 1; y >= 0; y -= 1) {
    for (let x = width - 1; x >= 0; x -= 1, at -= 1) {
      let least = far[at]!;
      if (least === 0) continue;
      if (x < width - 1) least = Math.min(least, far[at + 1]! + 5);
      if (y < height - 1) {
        least = Math.min(least, far[at + width]! + 5);
        if (x > 0) least = Math.min(least, far[at + width - 1]! + 7);
        if (x < width - 1) least = Math.min(least, far[at + width + 1]! + 7);
      }
      far[at] = least;
    }
  }
  return far;
};
