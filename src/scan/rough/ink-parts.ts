/** Ink that hangs together, sides or corners. */
export interface InkPart {
  /** The numbers of its pixels. */
  readonly pixels: Int32Array;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The parts of a mask that are at least `size` pixels across or down; the mask is used up. */
export const inkParts = (mask: Uint8Array, width: number, height: number, size: number): InkPart[] => {
  const parts: InkPart[] = [];
  for (let first = 0; first < mask.length; first += 1) {
    if (mask[first] === 0) continue;
    const pixels = [first];
    mask[first] = 0;
    let [left, right, top, bottom] = [width, 0, height, 0];
    for (let k = 0; k < pixels.length; k += 1) {
      const x = pixels[k]! % width;
      const y = (pixels[k]! - x) / width;
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
      for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v += 1) {
        for (let to = v * width + Math.max(0, x - 1); to <= v * width + Math.min(width - 1, x + 1); to += 1) {
          if (mask[to] === 0) continue;
          mask[to] = 0;
          pixels.push(to);
        }
      }
    }
    if (Math.max(right - left, bottom - top) >= size) {
      parts.push({ pixels: Int32Array.from(pixels), left, right, top, bottom });
    }
  }
  return parts;
};
