/**
 * The overlay measured as a maker would, on the picture: rendered by librsvg (through sharp), which has no line of this code. The distances
 * on the cloth come from the numbers in the sheet: its centre back is the straight line (89.484, -172.589) to (98.552, 149.308).
 */
import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { inFolder } from '../support/run-staywright.ts';
import { runScript } from '../support/run-script.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

type Colour = readonly [red: number, green: number, blue: number];

/** Millimetres of the picture. */
interface Line {
  readonly colour: Colour;
  readonly width: number;
}

const BEFORE: Line = { colour: [0x6f, 0x6a, 0x64], width: 0.35 };
const CHANGED: Line = { colour: [0xa2, 0x3b, 0x2a], width: 0.9 };

it('the two lines lie as far apart on the picture as the seam was taken in', async () => {
  const svg = await inFolder(async (folder) => {
    cpSync(INPUTS, folder, { recursive: true });
    await runScript(
      'staywright take-in net.svg --seam cb --above waist --amount 12.7mm -q -o v2.svg\n' +
        'staywright compare net.svg v2.svg -q -o overlay.svg',
      { cwd: folder },
    );
    return readFileSync(join(folder, 'overlay.svg'), 'utf8');
  });
  const heightOf = (level: string): number => {
    const [, y] = new RegExp(`data-of="back ${level}, after"[^>]* d="M [\\d.]+,([\\d.]+)`).exec(svg)!;
    return Number(y);
  };
  const scale = 1 / Number(/scale 1:(\d+)/.exec(svg)![1]);
  expect(heightOf('waist') - heightOf('bust')).toBeCloseTo(120 * scale, 3);

  const [, millimetres] = /width="([\d.]+)mm"/.exec(svg)!;
  const picture = sharp(Buffer.from(svg), { density: 300 });
  const whole = (await picture.metadata()).width;
  const perMm = whole / Number(millimetres);
  expect(perMm).toBeGreaterThan(7);
  // The centre back above the bust, where it came in by the whole amount; the bust itself has a line of its own.
  const [left, top] = [Math.round(whole * 0.75), Math.round((heightOf('bust') - 34 * scale) * perMm)];
  const { data, info } = await picture
    .extract({ left, top, width: whole - left, height: Math.round(30 * scale * perMm) })
    .flatten({ background: '#fff' })
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });

  const isNear = (row: number, x: number, [red, green, blue]: Colour): boolean => {
    const at = (row * info.width + x) * info.channels;
    return Math.abs(data[at]! - red) + Math.abs(data[at + 1]! - green) + Math.abs(data[at + 2]! - blue) < 24;
  };
  /** The middle of a line in a row; undefined where it is not there in its whole width, as at the end of a dash. */
  const middleOf = (row: number, { colour, width }: Line): number | undefined => {
    for (let from = 0; from < info.width; from += 1) {
      let to = from;
      while (to < info.width && isNear(row, to, colour)) to += 1;
      if (Math.abs(to - from - width * perMm) < 2) return (from + to) / 2;
      from = to;
    }
    return undefined;
  };
  const apart = Array.from({ length: info.height }, (_, row) => row).flatMap((row) => {
    const [was, is] = [middleOf(row, BEFORE), middleOf(row, CHANGED)];
    return was === undefined || is === undefined ? [] : [{ row, by: (was - is) / perMm / scale, was: was / perMm }];
  });
  expect(apart.length).toBeGreaterThan(info.height / 3);
  for (const { by } of apart) expect(Math.abs(by - 12.7)).toBeLessThan(2 / perMm / scale);
  const mean = apart.reduce((sum, { by }) => sum + by, 0) / apart.length;
  expect(Math.abs(mean - 12.7)).toBeLessThan(0.5 / perMm / scale);

  // And the former line slants on the picture as it does in the sheet.
  const [high, low] = [apart[0]!, apart.at(-1)!];
  const slant = (low.was - high.was) / ((low.row - high.row) / perMm);
  expect(slant).toBeCloseTo((98.552 - 89.484) / (149.308 + 172.589), 2);
});
