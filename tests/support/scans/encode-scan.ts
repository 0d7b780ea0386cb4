import sharp from 'sharp';
import type { Picture } from '../../../src/scan/picture.ts';

/** The picture as the bytes of a file; `density` is what the file says of its own dots an inch. */
export const encodeScan = async (
  { width, height, grey }: Picture,
  format: 'png' | 'jpeg' | 'tiff',
  { quality = 75, density, bilevel = false }: { quality?: number; density?: number; bilevel?: boolean } = {},
): Promise<Buffer> => {
  const raw = sharp(grey, { raw: { width, height, channels: 1 }, limitInputPixels: false }).toColourspace('b-w');
  const told = density === undefined ? raw : raw.withMetadata({ density });
  if (format === 'jpeg') return told.jpeg({ quality }).toBuffer();
  if (format === 'png') return told.png(bilevel ? { palette: true, colours: 2 } : { compressionLevel: 6 }).toBuffer();
  const inch = density === undefined ? {} : { xres: density / 25.4, yres: density / 25.4 };
  return told
    .tiff({ ...(bilevel ? { compression: 'ccittfax4', bitdepth: 1 } : { compression: 'lzw' }), ...inch })
    .toBuffer();
};
