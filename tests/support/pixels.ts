import sharp from 'sharp';

/** A decoded picture in grey, one byte a pixel, and how many pixels make a millimetre by its own word. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8Array;
  readonly pxPerMm: number;
  at(x: number, y: number): number;
}

/** Decodes a PNG by a library that has nothing in common with the one that drew it. */
export const pixelsOf = async (png: Uint8Array): Promise<Pixels> => {
  const { density = 0 } = await sharp(png).metadata();
  const { data, info } = await sharp(png)
    .flatten({ background: '#fff' })
    .greyscale()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { width, height } = info;
  return { width, height, grey: data, pxPerMm: density / 25.4, at: (x, y) => data[y * width + x]! };
};

/** Where ink stands along one row of pixels, as stretches from the first pixel to past the last; darker than `least`. */
export const inkAlong = ({ width, at }: Pixels, y: number, least = 128): (readonly [number, number])[] => {
  const found: [number, number][] = [];
  for (let x = 0; x < width; x += 1) {
    if (at(x, y) >= least) continue;
    const last = found.at(-1);
    if (last && last[1] === x) last[1] = x + 1;
    else found.push([x, x + 1]);
  }
  return found;
};
