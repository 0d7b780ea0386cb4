/** Pictures as other programs write them, made byte by byte where sharp would not write them so. */
import { crc32 } from 'node:zlib';
import sharp, { type Sharp } from 'sharp';

export const WIDTH = 260;
export const HEIGHT = 130;

/** Every grey along each row, with a step in the middle, so that a picture that is upside down or cut short differs. */
export const GREY: Uint8Array = Uint8Array.from({ length: WIDTH * HEIGHT }, (_, at) => {
  const row = Math.floor(at / WIDTH);
  return Math.min(255, Math.max(0, (at % WIDTH) - (row > HEIGHT / 2 ? 4 : 0)));
});

export const threeTimes = (grey: Uint8Array): Uint8Array =>
  Uint8Array.from({ length: grey.length * 3 }, (_, at) => grey[Math.floor(at / 3)]!);

/** The picture with one channel, with three equal ones, and with 16 bits, for sharp to write. */
export const inGrey = (grey: Uint8Array = GREY): Sharp => raw(grey, 1).toColourspace('b-w');
export const inColour = (): Sharp => raw(threeTimes(GREY), 3);
export const inDeepGrey = (): Sharp =>
  sharp(
    Uint16Array.from(GREY, (value) => value * 257),
    { raw: { width: WIDTH, height: HEIGHT, channels: 1 } },
  ).toColourspace('grey16');

export const raw = (samples: Uint8Array, channels: 1 | 2 | 3 | 4): Sharp =>
  sharp(samples, { raw: { width: WIDTH, height: HEIGHT, channels } });

export interface TiffOptions {
  readonly samples?: number;
  readonly bits?: number;
  /** 0 for white at nought, 1 for black at nought, 5 for CMYK. */
  readonly photometric?: number;
  /** What a fourth or second sample is: 2 for see-through. */
  readonly extra?: number;
  /** 3 for floating point. */
  readonly format?: number;
  /** Unit (1 none, 2 inch, 3 centimetre) and number. */
  readonly density?: readonly [unit: number, value: number];
}

/** A TIFF with its directory before its pixels, as scanners write it, in one uncompressed strip. */
export const tiffOf = (pixels: Uint8Array, options: TiffOptions = {}): Buffer => {
  const { samples = 1, bits = 8, photometric = 1, extra, format, density } = options;
  const [SHORT, LONG, RATIONAL] = [3, 4, 5];
  const entries: [tag: number, type: number, values: number[]][] = [
    [256, LONG, [WIDTH]],
    [257, LONG, [HEIGHT]],
    [258, SHORT, Array.from({ length: samples }, () => bits)],
    [259, SHORT, [1]],
    [262, SHORT, [photometric]],
    [273, LONG, [0]],
    [277, SHORT, [samples]],
    [278, LONG, [HEIGHT]],
    [279, LONG, [pixels.length]],
  ];
  if (density !== undefined) {
    entries.push([282, RATIONAL, [density[1] * 100, 100]], [283, RATIONAL, [density[1] * 100, 100]]);
    entries.push([296, SHORT, [density[0]]]);
  }
  if (extra !== undefined) entries.push([338, SHORT, [extra]]);
  if (format !== undefined) entries.push([339, SHORT, [format]]);

  const tail = 10 + entries.length * 12 + 4;
  const start = Buffer.alloc(tail + 64);
  start.write('II*\0', 'latin1');
  start.writeUInt32LE(8, 4);
  start.writeUInt16LE(entries.length, 8);
  let free = tail;
  entries.forEach(([tag, type, values], at) => {
    const size = type === SHORT ? 2 : 4;
    const count = type === RATIONAL ? values.length / 2 : values.length;
    const entry = 10 + 12 * at;
    start.writeUInt16LE(tag, entry);
    start.writeUInt16LE(type, entry + 2);
    start.writeUInt32LE(count, entry + 4);
    let place = entry + 8;
    if (size * values.length > 4) {
      start.writeUInt32LE(free, place);
      place = free;
      free += size * values.length;
    }
    for (const value of tag === 273 ? [start.length] : values) {
      if (size === 2) start.writeUInt16LE(value, place);
      else start.writeUInt32LE(value, place);
      place += size;
    }
  });
  return Buffer.concat([start, pixels]);
};

/** A PNG with one more chunk after its header. */
export const withChunk = (png: Buffer, type: string, content: Uint8Array): Buffer => {
  const named = Buffer.concat([Buffer.from(type, 'latin1'), content]);
  return Buffer.concat([png.subarray(0, 33), uint32(content.length), named, uint32(crc32(named)), png.subarray(33)]);
};

/** A PNG that says how many pixels it has to the metre, or to nothing in particular (unit 0). */
export const withPixelsPerUnit = (png: Buffer, value: number, unit: number): Buffer =>
  withChunk(png, 'pHYs', Buffer.concat([uint32(value), uint32(value), Buffer.of(unit)]));

/** A JPEG that says its density in its first marker: unit 0 is none, 1 the inch, 2 the centimetre. */
export const withJfif = (jpeg: Buffer, unit: number, value: number): Buffer => {
  const marker = Buffer.from('ffe000104a46494600010100000100010000', 'hex');
  marker[11] = unit;
  marker.writeUInt16BE(value, 12);
  marker.writeUInt16BE(value, 14);
  return Buffer.concat([jpeg.subarray(0, 2), marker, jpeg.subarray(2)]);
};

/** The file with forty bytes changed from `part` of its length on. */
export const damagedAt = (bytes: Buffer, part: number): Buffer => {
  const copy = Buffer.from(bytes);
  const start = Math.round(bytes.length * part);
  for (let at = start; at < start + 40; at++) copy[at] = (copy[at]! * 7 + 13 * at + 5) & 255;
  return copy;
};

const uint32 = (value: number): Buffer => {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(value);
  return bytes;
};
