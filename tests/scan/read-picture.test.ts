import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { StaywrightError } from '../../src/errors.ts';
import { LIGHT } from '../../src/scan/picture.ts';
import { readPicture, type Scan } from '../../src/scan/read-picture.ts';
import { inFolder } from '../support/run-staywright.ts';
import {
  damagedAt,
  GREY,
  HEIGHT,
  inColour,
  inDeepGrey,
  inGrey,
  raw,
  threeTimes,
  tiffOf,
  WIDTH,
  withChunk,
  withJfif,
  withPixelsPerUnit,
} from './written-pictures.ts';

const farthest = ({ picture }: Scan, wanted: Uint8Array): number => {
  expect(picture.grey.length).toBe(wanted.length);
  return picture.grey.reduce((most, value, at) => Math.max(most, Math.abs(value - wanted[at]!)), 0);
};

const refused = async (bytes: string | Uint8Array): Promise<StaywrightError> => {
  try {
    await readPicture(bytes, 'front.png');
  } catch (error) {
    if (!(error instanceof StaywrightError)) throw error;
    expect(error).toMatchObject({ code: 'input', where: 'front.png' });
    expect(`${error.message}\n${error.hint ?? ''}`).not.toMatch(/vips|libpng|undefined/);
    expect(error.message.length).toBeLessThan(80);
    return error;
  }
  throw new Error('it was read');
};

const blank = (width: number, height: number): Promise<Buffer> =>
  sharp({ create: { width, height, channels: 3, background: '#fff' } })
    .png()
    .toBuffer();

/** 0 and 255 alone. */
const INK = GREY.map((value) => (value >= 128 ? 255 : 0));
const DEEP = Uint8Array.from(new Uint8Array(Uint16Array.from(GREY, (value) => value * 257).buffer));
/** Grey beside full cover, and black that thins out. */
const besideFull = Uint8Array.from({ length: 2 * GREY.length }, (_, at) => (at % 2 === 0 ? GREY[at / 2]! : 255));
const thinningBlack = Uint8Array.from({ length: 2 * GREY.length }, (_, at) => (at % 2 === 0 ? 0 : GREY[(at - 1) / 2]!));
const thinned = GREY.map((value) => 255 - value);

describe('the grey of a picture is that of the plain grey file', () => {
  it.each<[string, () => Promise<Uint8Array> | Uint8Array, Uint8Array, number]>([
    ['PNG, 8-bit grey', () => inGrey().png().toBuffer(), GREY, 0],
    ['PNG, interlaced', () => inGrey().png({ progressive: true }).toBuffer(), GREY, 0],
    ['PNG, colour', () => inColour().png().toBuffer(), GREY, 0],
    ['PNG, palette', () => inGrey().png({ palette: true }).toBuffer(), GREY, 0],
    ['PNG, 16-bit grey', () => inDeepGrey().png().toBuffer(), GREY, 0],
    ['PNG, 16-bit colour', () => inColour().toColourspace('rgb16').png().toBuffer(), GREY, 1],
    ['PNG, grey with a full alpha', () => raw(besideFull, 2).toColourspace('b-w').png().toBuffer(), GREY, 0],
    ['PNG, black thinning out on white', () => raw(thinningBlack, 2).toColourspace('b-w').png().toBuffer(), thinned, 1],
    ['PNG, colour with alpha', () => inColour().ensureAlpha(1).png().toBuffer(), GREY, 0],
    ['JPEG, grey', () => inGrey().jpeg({ quality: 100 }).toBuffer(), GREY, 1],
    ['JPEG, colour', () => inColour().jpeg({ quality: 100 }).toBuffer(), GREY, 1],
    ['JPEG, progressive', () => inGrey().jpeg({ quality: 100, progressive: true }).toBuffer(), GREY, 1],
    ['TIFF, plain', () => tiffOf(GREY), GREY, 0],
    ['TIFF, white at nought', () => tiffOf(thinned, { photometric: 0 }), GREY, 0],
    ['TIFF, colour by LZW', () => inColour().tiff({ compression: 'lzw' }).toBuffer(), GREY, 0],
    ['TIFF, in tiles', () => inGrey().tiff({ compression: 'deflate', tile: true }).toBuffer(), GREY, 0],
    ['TIFF, JPEG within', () => inGrey().tiff({ compression: 'jpeg', quality: 100 }).toBuffer(), GREY, 1],
    ['TIFF, 16-bit grey', () => tiffOf(DEEP, { bits: 16 }), GREY, 0],
    ['TIFF, grey with alpha', () => tiffOf(besideFull, { samples: 2, extra: 2 }), GREY, 0],
    ['TIFF, see-through', () => tiffOf(thinningBlack, { samples: 2, extra: 2 }), thinned, 1],
    ['TIFF, colour', () => tiffOf(threeTimes(GREY), { samples: 3, photometric: 2 }), GREY, 0],
  ])('%s', async (_, write, wanted, within) => {
    const scan = await readPicture(await write(), 'a');
    expect({ width: scan.picture.width, height: scan.picture.height }).toEqual({ width: WIDTH, height: HEIGHT });
    expect(farthest(scan, wanted)).toBeLessThanOrEqual(within);
    expect(scan.isBilevel).toBe(false);
  });

  it.each<[string, () => Promise<Uint8Array>]>([
    ['PNG of one bit', () => inGrey(INK).png({ palette: true, colours: 2 }).toBuffer()],
    ['TIFF of one bit, as a fax', () => inGrey(INK).tiff({ compression: 'ccittfax4', bitdepth: 1 }).toBuffer()],
    ['TIFF of one bit, white at nought', () => inGrey(INK).tiff({ bitdepth: 1, miniswhite: true }).toBuffer()],
    ['PNG of eight bits that uses two', () => inGrey(INK).png().toBuffer()],
  ])('%s, and it is known to hold two greys', async (_, write) => {
    const scan = await readPicture(await write(), 'a');
    expect(farthest(scan, INK)).toBe(0);
    expect(scan.isBilevel).toBe(true);
  });

  it('TIFF in printing inks, as black ink looks on paper: white is white, and middle greys are within 12', async () => {
    const black = Buffer.alloc(GREY.length * 4);
    GREY.forEach((value, at) => (black[4 * at + 3] = 255 - value));
    const { grey } = (await readPicture(tiffOf(black, { samples: 4, photometric: 5 }), 'a')).picture;
    for (let at = 1; at < 256; at++) expect(grey[at]).toBeGreaterThanOrEqual(grey[at - 1]!);
    expect(grey[0]).toBeLessThan(16);
    expect(grey[255]).toBe(255);
    for (let at = 96; at < 256; at++) expect(Math.abs(grey[at]! - at)).toBeLessThanOrEqual(12);
  });

  it('JPEG in printing inks, whose values are often stored upside down', async () => {
    const { grey } = (await readPicture(await inColour().toColourspace('cmyk').jpeg({ quality: 100 }).toBuffer(), 'a'))
      .picture;
    expect(grey[0]).toBeLessThan(16);
    expect(grey[255]).toBe(255);
    for (let at = 96; at < 256; at++) expect(Math.abs(grey[at]! - at)).toBeLessThanOrEqual(14);
  });
});

describe('colour', () => {
  it.each<[string, number, number, number]>([
    ['red', 255, 0, 0],
    ['green', 0, 255, 0],
    ['blue', 0, 0, 255],
    ['ochre', 204, 119, 34],
    ['the blue of a pencil', 120, 150, 210],
  ])('%s becomes the grey of its luminance in linear light', async (_, r, g, b) => {
    const png = await sharp({ create: { width: 120, height: 120, channels: 3, background: { r, g, b } } })
      .png()
      .toBuffer();
    const light = 0.2126 * LIGHT[r]! + 0.7152 * LIGHT[g]! + 0.0722 * LIGHT[b]!;
    const wanted = LIGHT.findIndex((value, at) => light < (value + (LIGHT[at + 1] ?? 2)) / 2);
    const { grey } = (await readPicture(png, 'a')).picture;
    expect(Math.abs(grey[0]! - wanted)).toBeLessThanOrEqual(1);
  });

  it('in a file with a profile of its own is read by that profile', async () => {
    const plain = await readPicture(await inColour().png().toBuffer(), 'a');
    const wide = await readPicture(await inColour().withIccProfile('p3').png().toBuffer(), 'a');
    expect(farthest(wide, plain.picture.grey)).toBeLessThanOrEqual(2);
  });
});

describe('a picture', () => {
  it('that lies on its side is turned upright', async () => {
    const scan = await readPicture(await inGrey().withMetadata({ orientation: 6 }).png().toBuffer(), 'a');
    const { width, height, grey } = scan.picture;
    expect([width, height]).toEqual([HEIGHT, WIDTH]);
    for (const [x, y] of [
      [0, 0],
      [HEIGHT - 1, 0],
      [10, 200],
      [100, 77],
    ] as const) {
      expect(grey[y * width + x]).toBe(GREY[(HEIGHT - 1 - x) * WIDTH + y]);
    }
  });

  it('is read from a path as from its bytes', () =>
    inFolder(async (folder) => {
      const bytes = await inColour().jpeg().toBuffer();
      writeFileSync(join(folder, 'misnamed.png'), bytes);
      const fromPath = await readPicture(join(folder, 'misnamed.png'), 'a');
      expect(fromPath).toEqual(await readPicture(bytes, 'a'));
    }));

  it('of several pages gives the first, and says so', async () => {
    const pages = await sharp(Buffer.concat([GREY, INK, INK]), {
      raw: { width: WIDTH, height: 3 * HEIGHT, channels: 1, pageHeight: HEIGHT },
    })
      .toColourspace('b-w')
      .tiff({ compression: 'lzw' })
      .toBuffer();
    const scan = await readPicture(pages, 'a');
    expect(farthest(scan, GREY)).toBe(0);
    expect(scan.notes).toEqual(['holds 3 pages: only the first is read']);
  });

  it('with something odd beside its pixels is read', async () => {
    const png = withChunk(await inGrey().png().toBuffer(), 'iCCP', Buffer.from('x\0\0abc'));
    expect(farthest(await readPicture(png, 'a'), GREY)).toBe(0);
  });
});

describe('what a file says of its density', () => {
  const png = inGrey().png().toBuffer();
  const jpeg = inGrey().jpeg().toBuffer();
  it.each<[string, () => Promise<Uint8Array> | Uint8Array, number | undefined]>([
    ['PNG, 11811 a metre', async () => withPixelsPerUnit(await png, 11_811, 1), 300],
    ['PNG, nothing', () => png, undefined],
    ['PNG, 300 of no unit', async () => withPixelsPerUnit(await png, 300, 0), undefined],
    ['PNG, 72 of no unit', async () => withPixelsPerUnit(await png, 72, 0), undefined],
    ['PNG, 96 to the inch', async () => withPixelsPerUnit(await png, 3780, 1), undefined],
    ['JPEG, 600 to the inch', async () => withJfif(await jpeg, 1, 600), 600],
    ['JPEG, 118 to the centimetre', async () => withJfif(await jpeg, 2, 118), 300],
    ['JPEG, a shape of pixels only', async () => withJfif(await jpeg, 0, 1), undefined],
    ['JPEG, 300 of no unit', async () => withJfif(await jpeg, 0, 300), undefined],
    ['JPEG, 72 to the inch', async () => withJfif(await jpeg, 1, 72), undefined],
    ['JPEG, 20 to the inch', async () => withJfif(await jpeg, 1, 20), undefined],
    ['JPEG, 9600 to the inch', async () => withJfif(await jpeg, 1, 9600), undefined],
    ['JPEG, by its camera data', () => inGrey().withMetadata({ density: 150 }).jpeg().toBuffer(), 150],
    ['TIFF, 400 to the inch', () => tiffOf(GREY, { density: [2, 400] }), 400],
    ['TIFF, 236.22 to the centimetre', () => tiffOf(GREY, { density: [3, 236.22] }), 600],
    ['TIFF, 300 of no unit', () => tiffOf(GREY, { density: [1, 300] }), undefined],
    ['TIFF, 72 of no unit', () => tiffOf(GREY, { density: [1, 72] }), undefined],
    ['TIFF, nothing', () => tiffOf(GREY), undefined],
  ])('%s', async (_, write, dpi) => {
    const scan = await readPicture(await write(), 'a');
    expect(scan.dpi).toBe(dpi);
    expect('dpi' in scan).toBe(dpi !== undefined);
  });
});

describe('one clear line refuses', () => {
  const svg = '<?xml version="1.0"?>\n<!-- front -->\n<svg xmlns="http://www.w3.org/2000/svg" width="9"/>';
  const heif = Buffer.from('\0\0\0\x18ftypheic\0\0\0\0mif1heic', 'latin1');

  it.each<[string, () => Promise<Uint8Array> | Uint8Array, RegExp, RegExp]>([
    ['an empty file', () => new Uint8Array(), /^is empty$/, /again/],
    ['a drawing', () => Buffer.from(svg), /^is an SVG drawing, not a scan$/, /staywright label/],
    ['a drawing after a mark of its coding', () => Buffer.from(`\uFEFF${svg}`), /^is an SVG drawing/, /label/],
    ['a PDF', () => Buffer.from('%PDF-1.7\n...'), /^is a PDF, not a scan$/, /as a PNG at 300 dpi/],
    ['a WebP', () => inGrey().webp().toBuffer(), /^is a WebP picture; a scan is read as PNG, JPEG or TIFF$/, /PNG/],
    ['a GIF', () => inGrey().gif().toBuffer(), /^is a GIF; a scan is read as PNG, JPEG or TIFF$/, /PNG/],
    ['a HEIC', () => heif, /^is a HEIC or AVIF picture; a scan is read as PNG, JPEG or TIFF$/, /PNG/],
    ['text', () => Buffer.from('bust 36\nwaist 26\n'), /^is not a picture$/, /PNG, JPEG or TIFF/],
    ['one byte', () => Buffer.of(0x89), /^is not a picture$/, /PNG/],
    ['one pixel', () => blank(1, 1), /^is 1 x 1 pixels, too small to be a scan$/, /300 dpi/],
    ['a narrow strip', () => blank(99, 400), /^is 99 x 400 pixels, too small/, /300 dpi/],
    [
      'numbers that are no greys',
      () => tiffOf(new Uint8Array(GREY.length * 4), { bits: 32, format: 3 }),
      /^has more than 16 bits/,
      /8 bits/,
    ],
    [
      'more pixels than it holds in memory',
      async () => {
        const png = Buffer.from(await blank(120, 120));
        png.writeUInt32BE(30_000, 16);
        return Buffer.concat([png.subarray(0, 8), withHeader(png)]);
      },
      /^is 30000 x 20000 pixels, over 400 million in all$/,
      /300 dpi/,
    ],
  ])('%s', async (_, write, message, hint) => {
    const error = await refused(await write());
    expect(error.message).toMatch(message);
    expect(error.hint).toMatch(hint);
  });

  it('a path where there is no file, and a folder', () =>
    inFolder(async (folder) => {
      expect((await refused(join(folder, 'none.png'))).message).toBe('cannot be read (ENOENT)');
      expect((await refused(folder)).message).toBe('cannot be read (EISDIR)');
    }));

  const noisy = GREY.map((value, at) => (value + ((at * 7919) % 23)) & 255);
  it.each<[string, () => Promise<Buffer> | Buffer]>([
    ['PNG', () => inGrey(noisy).png().toBuffer()],
    ['PNG, interlaced', () => inGrey(noisy).png({ progressive: true }).toBuffer()],
    ['JPEG', () => inGrey(noisy).jpeg().toBuffer()],
    ['JPEG, progressive', () => inGrey(noisy).jpeg({ progressive: true }).toBuffer()],
    ['TIFF, plain', () => tiffOf(noisy)],
    ['TIFF with its directory last', () => inGrey(noisy).tiff({ compression: 'lzw' }).toBuffer()],
    ['TIFF of one bit', () => inGrey(INK).tiff({ compression: 'ccittfax4', bitdepth: 1 }).toBuffer()],
  ])('a %s that is cut short anywhere', async (kind, write) => {
    const whole = await write();
    await readPicture(whole, 'a');
    for (const length of [12, 0.05, 0.3, 0.6, 0.95].map((part) =>
      part > 1 ? part : Math.round(part * whole.length),
    )) {
      expect((await refused(whole.subarray(0, length))).message).toBe('is damaged or cut short');
    }
    // The last twelve bytes of a PNG hold no pixels.
    const cut = whole.subarray(0, kind.startsWith('PNG') ? -13 : -1);
    expect((await refused(cut)).message).toBe('is damaged or cut short');
  });

  it.each<[string, () => Promise<Buffer>]>([
    ['PNG', () => inGrey(noisy).png().toBuffer()],
    ['TIFF by LZW', () => inGrey(noisy).tiff({ compression: 'lzw' }).toBuffer()],
    [
      'TIFF of one bit',
      () =>
        inGrey(noisy.map((v) => (v & 8 ? 255 : 0)))
          .tiff({ compression: 'ccittfax4', bitdepth: 1 })
          .toBuffer(),
    ],
  ])('a %s that is damaged in its middle', async (_, write) => {
    const whole = await write();
    for (const part of [0.3, 0.5, 0.8]) {
      expect((await refused(damagedAt(whole, part))).message).toBe('is damaged or cut short');
    }
  });
});

/** The header chunk of a PNG made 20,000 high, with its check value, and what follows it. */
const withHeader = (png: Buffer): Buffer => {
  const header = Buffer.from(png.subarray(16, 29));
  header.writeUInt32BE(20_000, 4);
  return withChunk(png, 'IHDR', header).subarray(33);
};
