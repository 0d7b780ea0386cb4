import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { planFiles } from '../../src/cli/plan-files.ts';
import { StaywrightError } from '../../src/errors.ts';
import type { Path } from '../../src/geometry/path.ts';
import { point, type Point } from '../../src/geometry/point.ts';
import { line } from '../../src/geometry/segment.ts';
import type { Picture } from '../../src/scan/picture.ts';
import { previewPicture, type PreviewContent } from '../../src/scan/preview.ts';
import { inFolder } from '../support/run-staywright.ts';

const PX_PER_MM = 12;

const plain = (width: number, height: number, grey: number): Picture => ({
  width,
  height,
  grey: new Uint8Array(width * height).fill(grey),
});

const closed = (points: readonly Point[]): Path => ({
  segments: points.map((p, at) => line(p, points[(at + 1) % points.length]!)),
});

const box = (left: number, top: number, right: number, bottom: number): Point[] => [
  point(left, top),
  point(right, top),
  point(right, bottom),
  point(left, bottom),
];

const CORNERS = box(50.5, 100.5, 750.5, 500.5);
const SQUARE = box(850, 400, 950, 500);
/** Everything that can be traced, each along a row of its own. */
const CONTENT: PreviewContent = {
  pxPerMm: PX_PER_MM,
  square: SQUARE,
  panels: [
    {
      outline: closed(CORNERS),
      corners: CORNERS,
      within: [closed(box(80.5, 130.5, 720.5, 470.5))],
      marks: {
        notches: [line(point(50.5, 300.5), point(110.5, 300.5))],
        grain: [line(point(120.5, 350.5), point(700.5, 350.5))],
        across: [line(point(50.5, 400.5), point(750.5, 400.5))],
        art: [{ segments: [line(point(200.5, 220.5), point(600.5, 220.5))] }],
      },
    },
  ],
};

/** The preview as greys, as if printed in black and white. */
const inGreys = async (png: Uint8Array): Promise<(x: number, y: number) => number> => {
  const { data, info } = await sharp(png).grayscale().toColourspace('b-w').raw().toBuffer({ resolveWithObject: true });
  return (x, y) => data[y * info.width + x]!;
};

/** The longest run in a row that is darker than the scan and the white beside lines, in pixels. */
const longestDash = (at: (x: number, y: number) => number, y: number, left: number, right: number): number => {
  let [longest, run] = [0, 0];
  for (let x = left; x < right; x++) {
    run = at(x, y) < 120 ? run + 1 : 0;
    longest = Math.max(longest, run);
  }
  return longest;
};

describe('a preview', () => {
  it.each([
    ['white paper', 255],
    ['a black ground', 0],
    ['a middle grey', 128],
  ])('shows every line clearly on %s, without its colour', async (_, grey) => {
    const at = await inGreys(await previewPicture(plain(1000, 600, grey), CONTENT));
    const ground = at(5, 5);
    const rows = { outline: 100, within: 130, notch: 300, grain: 350, across: 400, art: 220 };
    for (const [name, y] of Object.entries(rows)) {
      const [left, right] = name === 'notch' ? [55, 105] : [210, 590];
      let darkest = 255;
      for (let x = left; x < right; x++) darkest = Math.min(darkest, at(x, y));
      expect({ name, stands: Math.abs(ground - darkest) > 40 }).toEqual({ name, stands: true });
    }
    expect(at(900, 300)).toBe(ground);
  });

  it('tells lines apart by their dashes and their weight', async () => {
    const at = await inGreys(await previewPicture(plain(1000, 600, 255), CONTENT));
    const [outline, ...dashed] = [100, 350, 400, 130, 220].map((y) => longestDash(at, y, 210, 590));
    expect(outline).toBe(380);
    for (let i = 1; i < dashed.length; i++) expect(dashed[i - 1]! / dashed[i]!).toBeGreaterThan(1.3);
    expect(dashed[0]).toBeLessThan(90);
    // A notch is the heaviest.
    const weight = (x: number, y: number): number =>
      [-3, -2, -1, 0, 1, 2, 3].filter((off) => at(x, y + off) < 160).length;
    expect(weight(55, 300)).toBeGreaterThan(weight(400, 100));
  });

  it('leaves white beside a line on a dark ground, and the scan two pixels farther as it is, only lighter', async () => {
    const at = await inGreys(await previewPicture(plain(1000, 600, 20), CONTENT));
    const ground = at(5, 5);
    expect(ground).toBeGreaterThan(100);
    expect(Math.max(at(400, 98), at(400, 102))).toBeGreaterThan(ground + 30);
    for (const y of [95, 105]) expect(at(400, y)).toBe(ground);
  });

  it('has a ring at every corner, open in its middle, and hatching in the square', async () => {
    const content = {
      ...CONTENT,
      panels: [{ outline: closed(CORNERS), corners: CORNERS.map(({ x, y }) => point(x - 20, y - 20)) }],
    };
    const at = await inGreys(await previewPicture(plain(1000, 600, 255), content));
    for (const { x, y } of content.panels[0]!.corners) {
      const [left, top] = [Math.floor(x), Math.floor(y)];
      expect(at(left, top)).toBe(at(5, 5));
      const around = [0, 1, 2, 3, 4, 5, 6, 7].map((eighth) => {
        const [dx, dy] = [Math.cos((eighth * Math.PI) / 4) * 9, Math.sin((eighth * Math.PI) / 4) * 9];
        return at(Math.floor(x + dx), Math.floor(y + dy));
      });
      expect(Math.max(...around)).toBeLessThan(150);
    }
    let lightened = 0;
    for (let x = 853; x < 947; x++) if (at(x, 450) < 250) lightened += 1;
    expect(longestDash(at, 450, 853, 947)).toBeLessThan(4);
    expect(lightened).toBeGreaterThan(4);
    expect(lightened).toBeLessThan(47);
  });

  it('is as large as the scan up to 12 megapixels, then 4000 pixels long, with its lines still in their places', async () => {
    const small = await sharp(await previewPicture(plain(1000, 600, 255), CONTENT)).metadata();
    expect([small.width, small.height, small.format, small.channels]).toEqual([1000, 600, 'png', 3]);
    const png = await previewPicture(plain(8000, 2000, 255), {
      pxPerMm: 24,
      panels: [{ outline: closed(box(800, 400, 7200, 1600)), corners: [] }],
    });
    const { width, height } = await sharp(png).metadata();
    expect([width, height]).toEqual([4000, 1000]);
    const at = await inGreys(png);
    const dark = [195, 196, 197, 198, 199, 200, 201, 202, 203, 204, 205].filter((y) => at(2000, y) < 120);
    expect(dark).toEqual([199, 200]);
  });

  it('has the same bytes each time, and says near its beginning whose it is', async () => {
    const [one, other] = [
      await previewPicture(plain(300, 200, 200), CONTENT),
      await previewPicture(plain(300, 200, 200), CONTENT),
    ];
    expect(Buffer.from(one).equals(other)).toBe(true);
    expect(Buffer.from(one).indexOf('staywright')).toBeLessThan(1000);
    expect((await sharp(one).metadata()).exif!.toString('latin1')).toContain('staywright');
  });

  it('is replaced by a newer one, where a picture of somebody else is left as it is', () =>
    inFolder(async (folder) => {
      const png = await previewPicture(plain(300, 200, 200), CONTENT);
      const paths = ['ours.png', 'theirs.png'].map((name) => join(folder, name));
      writeFileSync(paths[0]!, png);
      writeFileSync(paths[1]!, await sharp(png).png().toBuffer());
      const plan = (path: string, force = false): unknown => planFiles([{ path, bytes: png }], { inputs: [], force });
      expect(plan(paths[0]!)).toMatchObject([{ path: paths[0] }]);
      expect(() => plan(paths[1]!)).toThrow(StaywrightError);
      expect(() => plan(paths[1]!)).toThrow('was not written by staywright');
      expect(plan(paths[1]!, true)).toMatchObject([{ path: paths[1] }]);
      expect(readFileSync(paths[0]!).equals(png)).toBe(true);
    }));
});

describe('a drawing that was traced', () => {
  it('is known as our own, and a drawing without that mark is not', () =>
    inFolder((folder) => {
      const path = join(folder, 'traced.svg');
      const plan = (): unknown => planFiles([{ path, bytes: '' }], { inputs: [], force: false });
      writeFileSync(
        path,
        '<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg" width="9mm" data-drawing="1"/>',
      );
      expect(plan()).toMatchObject([{ path }]);
      writeFileSync(path, '<svg xmlns="http://www.w3.org/2000/svg" width="9mm"><g data-drawing="1"/></svg>');
      expect(plan).toThrow('was not written by staywright');
      return Promise.resolve();
    }));
});
