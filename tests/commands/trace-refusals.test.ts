/** A picture that cannot be traced, and words that cannot be meant, end in one clear line, exit 2, nothing written, all files as they were. */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Picture } from '../../src/scan/picture.ts';
import { encodeScan } from '../support/scans/encode-scan.ts';
import { makeScan } from '../support/scans/make-scan.ts';
import { randomFrom } from '../support/scans/random.ts';
import type { ScanSpec } from '../support/scans/scan-spec.ts';
import { tinySheet } from '../support/scans/tiny-sheet.ts';
import { runMain } from '../support/run-main.ts';

const folder = mkdtempSync(join(tmpdir(), 'staywright-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const put = (name: string, bytes: Uint8Array | string): void => writeFileSync(join(folder, name), bytes);

const picture = async (spec: ScanSpec): Promise<Picture> => (await makeScan(spec)).picture;

/** A picture in which each pixel's grey is told by its number. */
const greys = (width: number, height: number, grey: (at: number) => number): Promise<Buffer> =>
  encodeScan({ width, height, grey: Uint8Array.from({ length: width * height }, (_, at) => grey(at)) }, 'png');

/** The PNG with another size in its header, and nothing else changed. */
const saidToBe = (png: Buffer, width: number, height: number): Buffer => {
  const bytes = Buffer.from(png);
  bytes.writeUInt32BE(width, 16);
  bytes.writeUInt32BE(height, 20);
  bytes.writeUInt32BE(crc32(bytes.subarray(12, 29)), 29);
  return bytes;
};

/** The first scan with the second to its right. */
const sideBySide = (left: Picture, right: Picture): Picture => {
  const width = left.width + right.width;
  const grey = new Uint8Array(width * left.height);
  for (let y = 0; y < left.height; y += 1) {
    grey.set(left.grey.subarray(y * left.width, (y + 1) * left.width), y * width);
    grey.set(right.grey.subarray(y * right.width, (y + 1) * right.width), y * width + left.width);
  }
  return { width, height: left.height, grey };
};

beforeAll(async () => {
  const sheet = tinySheet();
  const { square, ...plain } = sheet;
  const whole = await picture(sheet);
  const png = await encodeScan(whole, 'png');
  put('scan.png', png);
  put('cut-short.png', png.subarray(0, png.length / 2));
  for (const format of ['jpeg', 'tiff'] as const) {
    const bytes = await encodeScan(whole, format);
    put(`cut-short.${format}`, bytes.subarray(0, bytes.length / 2));
  }
  put('huge.png', saidToBe(png, 30_000, 20_000));
  put('empty.png', '');
  put('letter.png', 'The pattern comes by post.\n');
  put('pages.pdf', '%PDF-1.4\n');
  put('drawn.svg', '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9"/>');
  put('screen.webp', await sharp(png).webp().toBuffer());
  put('dot.png', await greys(1, 1, () => 0));
  put('blank.png', await encodeScan(await picture({ ...plain, panels: [] }), 'png'));
  put('black.png', await greys(200, 260, () => 0));
  const random = randomFrom(4);
  put('noise.png', await greys(200, 260, () => random.below(256)));
  put('square.png', await encodeScan(await picture({ ...sheet, panels: [] }), 'png'));
  const panel = await picture(plain);
  put('panel.png', await encodeScan(panel, 'png'));
  const small = await picture({ ...sheet, panels: [], square: { side: 19, at: square!.at } });
  put('two-squares.png', await encodeScan(sideBySide(whole, small), 'png'));
  // On the left of the panel, away from its corners and its notch: 2 mm of line.
  const gap = { at: { x: 40, y: 47.5 }, reach: 6 };
  const level = await makeScan({ ...sheet, turn: 0 });
  for (let y = -gap.reach; y <= gap.reach; y += 1) {
    const row = Math.round(gap.at.y * level.truth.pxPerMm) + y;
    const x = Math.round((gap.at.x - 5) * level.truth.pxPerMm);
    level.picture.grey.fill(238, row * level.picture.width + x, row * level.picture.width + x + 60);
  }
  put('open.png', await encodeScan(level.picture, 'png'));
  const window = { x: 37, y: 12, width: 21, height: 40 };
  const { square: _, ...pieces } = tinySheet('cutout');
  put('run-out.png', await encodeScan(await picture({ ...pieces, window, turn: 0 }), 'png'));
  mkdirSync(join(folder, 'scans'));
});

/** Every file with its bytes. */
const snapshot = (): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder, { withFileTypes: true }).map((entry) => [
      entry.name,
      entry.isFile() ? readFileSync(join(folder, entry.name), 'latin1') : 'folder',
    ]),
  );

/** What was said, once it is sure that it was said as it should be and that nothing was written. */
const refused = async (words: string): Promise<string> => {
  const before = snapshot();
  const ran = await runMain(words.split(' '), { cwd: folder });
  assert.deepEqual({ code: ran.code, stdout: ran.stdout }, { code: 2, stdout: '' }, ran.stderr);
  assert.deepEqual(snapshot(), before);
  assert.match(ran.stderr, /^staywright (trace|strip-allowance): [^\n]*\n( {2}hint: [^\n]*\n)?$/);
  return ran.stderr;
};

type Row = readonly [says: string, words: string, message: RegExp];

const FILES: readonly Row[] = [
  ['an empty file', 'empty.png', /empty\.png: is empty\n {2}hint: scan or copy it again/],
  ['half a PNG', 'cut-short.png', /cut-short\.png: is damaged or cut short\n {2}hint: scan or copy it again/],
  ['half a JPEG', 'cut-short.jpeg', /cut-short\.jpeg: is damaged or cut short/],
  ['half a TIFF', 'cut-short.tiff', /cut-short\.tiff: is damaged or cut short/],
  ['a drawing', 'drawn.svg', /drawn\.svg: is an SVG drawing, not a scan\n {2}hint: .*staywright label/],
  ['a PDF', 'pages.pdf', /pages\.pdf: is a PDF, not a scan\n {2}hint: export its page as a PNG/],
  ['a text', 'letter.png', /letter\.png: is not a picture\n {2}hint: scan to PNG, JPEG or TIFF/],
  ['another kind of picture', 'screen.webp', /screen\.webp: is a WebP picture; .*\n {2}hint: export it as PNG/],
  ['a picture of one pixel', 'dot.png', /dot\.png: is 1 x 1 pixels, too small to be a scan/],
  ['a picture of 600 million pixels', 'huge.png', /huge\.png: is 30000 x 20000 pixels, over 400 million in all/],
  ['a missing file', 'scann.png', /scann\.png: there is no such file\n {2}hint: did you mean scan\.png\?/],
  ['a folder', 'scans', /scans: is a folder, where a file is wanted/],
];

const PICTURES: readonly Row[] = [
  ['blank paper', 'blank.png --dpi 150', /blank\.png: shows no line that closes\n {2}hint: .*face down/],
  ['black alone', 'black.png --dpi 150', /black\.png: shows no line that closes/],
  ['noise alone', 'noise.png --dpi 150', /noise\.png: shows no (panel|line that closes)/],
  ['a square alone', 'square.png --test-square 20mm', /square\.png: shows nothing but the test square\n {2}hint: /],
  ['a square alone that was not asked for', 'square.png --dpi 150', /square\.png: shows nothing but the test square/],
  [
    'no square',
    'panel.png --test-square 20mm',
    /--test-square: panel\.png shows no square: four straight lines of 20 mm/,
  ],
  [
    'a square of another size',
    'scan.png --test-square 50mm --dpi 150',
    /scan\.png shows no square of 50 mm, but of 20\.0 mm at the 150 dpi that was typed\n {2}hint: give the true side/,
  ],
  [
    'two squares',
    'two-squares.png --test-square 20mm',
    /two-squares\.png shows 2 squares that could be 20 mm: .*\n {2}hint: add --dpi .* or cover all but one/,
  ],
  [
    'no scale',
    'panel.png',
    /panel\.png: nothing says how large this scan is\n {2}hint: add --test-square 50mm .*--dpi 300/,
  ],
  [
    'a gap of 2 mm',
    'open.png --test-square 20mm',
    /open\.png: shows nothing but .*\n {2}hint: .*does not close near .*: mend it with a pen/,
  ],
  [
    'pieces that all run out',
    'run-out.png --dpi 150',
    /run-out\.png: every piece runs out of the picture\n {2}hint: .*--join/,
  ],
  [
    'scans of two sheets, joined',
    'scan.png noise.png --join --dpi 150',
    /scan\.png and noise\.png share too little to be joined\n {2}hint: let them overlap by more/,
  ],
];

const WORDS: readonly Row[] = [
  [
    'one scan to join',
    'scan.png --join',
    /--join: there is only one scan to join\n {2}hint: .*trace a\.png b\.png --join/,
  ],
  ['a dpi in words', 'scan.png --dpi abc', /--dpi: 'abc' is not a number\n {2}hint: .*like 300/],
  ['a dpi of no scanner', 'scan.png --dpi 3000', /--dpi: 3000 pixels to the inch is not from 50 to 2400/],
  [
    'a kind that is none',
    'scan.png --kind xyz',
    /--kind: 'xyz' is not line or cutout\n {2}hint: line: printed outlines/,
  ],
  ['a square without a side', 'scan.png --test-square 0mm', /--test-square: 0mm is no side of a square/],
  ['a square without a unit', 'scan.png --test-square 50', /--test-square: '50' has no unit\n {2}hint: .*50mm/],
  [
    'a preview as JPEG',
    'scan.png --preview x.jpg',
    /--preview: x\.jpg does not end in \.png\n {2}hint: name it x\.png/,
  ],
  [
    'a preview over the scan',
    'scan.png --dpi 150 --preview scan.png',
    /scan\.png: is the input, which is never overwr/,
  ],
  [
    'a preview over the drawing',
    'scan.png --preview x.png -o x.png',
    /-o: x\.png does not end in \.svg\n {2}hint: .*x\.svg/,
  ],
  [
    'a folder to write to',
    'scan.png --dpi 150 -o scans/',
    /-o: scans\/ does not end in \.svg\n {2}hint: name it scans\//,
  ],
  ['standard input twice', '- -', /-: standard input holds one scan\n {2}hint: name the others as files/],
  ['a level without a name', 'scan.png --dpi 150 --level waist,', /--level: /],
];

describe('trace refuses', () => {
  it.each([...FILES, ...PICTURES, ...WORDS])('%s', async (_, words, message) => {
    expect(await refused(`trace ${words}`)).toMatch(message);
  });
});

const STRIP: readonly Row[] = [
  ['no width', 'scan.png --test-square 20mm', /--allowance: .*\n {2}hint: .*--allowance/],
  [
    '--scale with a scan',
    'scan.png --allowance 5mm --scale 2',
    /--scale: a scan has none\n {2}hint: .*--test-square or --dpi/,
  ],
  ['--within with a scan', 'scan.png --allowance 5mm --within a', /--within: a scan has no/],
  ['--side with a scan', 'scan.png --allowance 5mm --side left', /--side: a scan has no/],
  [
    '--dpi with a drawing',
    'drawn.svg --allowance 5mm --dpi 300',
    /--dpi: only a scan has pixels to the inch\n {2}hint: .*--scale or --test-square/,
  ],
  ['half a scan', 'cut-short.png --allowance 5mm --dpi 150', /cut-short\.png: is damaged or cut short/],
  ['another kind of picture', 'screen.webp --allowance 5mm', /screen\.webp: /],
  ['a scan of unknown size', 'panel.png --allowance 5mm', /panel\.png: nothing says how large this scan is/],
];

describe('strip-allowance refuses', () => {
  it.each(STRIP)('%s', async (_, words, message) => {
    expect(await refused(`strip-allowance ${words}`)).toMatch(message);
  });
});
