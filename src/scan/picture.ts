/**
 * A picture in grey: one byte a pixel as a display would show it (sRGB coded), rows from the top. Pixel (0, 0) covers x from 0 to 1
 * and y from 0 to 1, so its middle is at (0.5, 0.5): every place in a picture is given so, y downwards.
 */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8Array;
}

/**
 * The light of each grey value, from 0 (none) to 1 (white), by the curve of IEC 61966-2-1. Blur and paper mix light, not grey values:
 * half-way between ink and paper lies at half the light.
 */
export const LIGHT: Float64Array = Float64Array.from({ length: 256 }, (_, value) => {
  const v = value / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
});
