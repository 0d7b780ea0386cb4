/**
 * From the bytes of a scan to one grey byte a pixel.
 *
 * Colour becomes grey by its luminance: the three values are turned to linear light, weighed 0.2126, 0.7152 and 0.0722 (IEC 61966-2-1),
 * and coded again, so that a grey pixel keeps its value exactly. A profile in the file is honoured (16-bit grey apart), and CMYK without
 * one is taken for ordinary printing inks. What is see-through lies on white. 16 bits are cut to 8.
 *
 * Limits: one full-size array is held, but a progressive JPEG, an interlaced PNG, or a picture that must be turned upright is held once
 * more while it is decoded. Whatever the decoder complains of is refused; but a baseline JPEG and the pixels of most TIFFs carry no
 * check, so that a few changed bytes in their middle may pass as wrong greys. A PNG has one for every block.
 */
import { open } from 'node:fs/promises';
import type { Metadata, Sharp, SharpOptions } from 'sharp';
import { StaywrightError } from '../errors.ts';
import type { Picture } from './picture.ts';
import { pictureFormat, TELLING_BYTES } from './reading/picture-format.ts';

/** A scan as it was read. */
export interface Scan {
  readonly name: string;
  readonly picture: Picture;
  /** Pixels to the inch as the file says of itself: rounded, of the rows alone, and often wrong; absent where it is senseless. */
  readonly dpi?: number;
  /** Nothing but two greys: the scanner has decided for each pixel whether it is ink. */
  readonly isBilevel: boolean;
  /** What the user should know about how it was read. */
  readonly notes: readonly string[];
}

/** An A2 sheet at 900 dpi; more is a mistake, or meant to exhaust the memory. */
const MOST_PIXELS = 400_000_000;

/** No test square could be measured on fewer. */
const FEWEST_A_SIDE = 100;

/** What programs write that know no density: 72 or 96 to the inch, or 72 without a unit, which is read as 72 a millimetre. */
const UNKNOWN_DENSITY: ReadonlySet<number> = new Set([72, 96, 1829]);
const LEAST_DENSITY = 50;
const MOST_DENSITY = 2400;

/**
 * Reads a PNG, JPEG or TIFF, told by its content: `source` is a path, which needs less memory, or the bytes.
 * Of a TIFF with several pages the first is read. Throws an input error, with `name` as its place, for what is empty, damaged or cut
 * short, of another kind, smaller than 100 pixels a side, or over 400 million pixels.
 */
export const readPicture = async (source: string | Uint8Array, name: string): Promise<Scan> => {
  refuseOthers(await beginningOf(source, name), name);
  const { default: sharp } = await import('sharp');
  sharp.cache(false);
  const opened = (options: SharpOptions): Sharp =>
    sharp(source, { failOn: 'warning', sequentialRead: true, ...options });
  const told = await opened({ limitInputPixels: false }).metadata().catch(damaged(name));
  refuseSizes(told, name);

  const { data, info } = await opened({ limitInputPixels: MOST_PIXELS })
    .autoOrient()
    .flatten({ background: '#fff' })
    .grayscale()
    .toColourspace('b-w')
    .raw()
    .toBuffer({ resolveWithObject: true })
    .catch(damaged(name));
  const grey = new Uint8Array(data.buffer, data.byteOffset, data.length);
  const { density = 0, pages = 1 } = told;
  const sensible = density >= LEAST_DENSITY && density <= MOST_DENSITY && !UNKNOWN_DENSITY.has(density);
  return {
    name,
    picture: { width: info.width, height: info.height, grey },
    ...(sensible ? { dpi: density } : {}),
    isBilevel: hasTwoGreys(grey),
    notes: pages > 1 ? [`holds ${pages} pages: only the first is read`] : [],
  };
};

const beginningOf = async (source: string | Uint8Array, name: string): Promise<Uint8Array> => {
  if (typeof source !== 'string') return source;
  try {
    const file = await open(source, 'r');
    try {
      const { buffer, bytesRead } = await file.read(new Uint8Array(TELLING_BYTES), 0, TELLING_BYTES, 0);
      return buffer.subarray(0, bytesRead);
    } finally {
      await file.close();
    }
  } catch (cause) {
    const code = (cause as { code?: unknown }).code;
    throw new StaywrightError('input', `cannot be read${typeof code === 'string' ? ` (${code})` : ''}`, {
      where: name,
      cause,
    });
  }
};

const refuseOthers = (start: Uint8Array, name: string): void => {
  const format = pictureFormat(start);
  switch (format.kind) {
    case 'read':
      return;
    case 'empty':
      throw refusal(name, 'is empty', 'scan or copy it again');
    case 'drawing':
      throw refusal(name, 'is an SVG drawing, not a scan', 'a drawing needs no tracing: give it to staywright label');
    case 'pdf':
      throw refusal(name, 'is a PDF, not a scan', 'export its page as a PNG at 300 dpi');
    case 'other':
      throw refusal(name, `is ${format.name}; a scan is read as PNG, JPEG or TIFF`, 'export it as PNG');
    case 'unknown':
      throw refusal(name, 'is not a picture', 'scan to PNG, JPEG or TIFF');
  }
};

const refuseSizes = ({ autoOrient: { width, height }, depth }: Metadata, name: string): void => {
  const size = `is ${width} x ${height} pixels`;
  if (width * height > MOST_PIXELS) {
    throw refusal(name, `${size}, over ${MOST_PIXELS / 1e6} million in all`, 'scan it at 300 dpi');
  }
  if (width < FEWEST_A_SIDE || height < FEWEST_A_SIDE) {
    throw refusal(name, `${size}, too small to be a scan`, 'scan it at 300 dpi');
  }
  if (depth !== 'uchar' && depth !== 'ushort') {
    throw refusal(name, 'has more than 16 bits a pixel and colour', 'export it with 8 bits, as PNG');
  }
};

const damaged =
  (name: string) =>
  (cause: unknown): never => {
    throw new StaywrightError('input', 'is damaged or cut short', {
      where: name,
      hint: 'scan or copy it again; if a picture program opens it whole, export it from there as PNG',
      cause,
    });
  };

const hasTwoGreys = (grey: Uint8Array): boolean => {
  const first = grey[0]!;
  let second = first;
  for (let at = 1; at < grey.length; at++) {
    const value = grey[at]!;
    if (value === first || value === second) continue;
    if (second !== first) return false;
    second = value;
  }
  return true;
};

const refusal = (where: string, message: string, hint: string): StaywrightError =>
  new StaywrightError('input', message, { where, hint });
