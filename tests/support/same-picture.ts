import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Resvg } from '@resvg/resvg-js';
import sharp from 'sharp';
import { expect } from 'vitest';
import type { Scene } from '../../src/ink/scene.ts';
import { sceneSvg } from '../../src/ink/scene-svg.ts';
import { pixelsOf } from './pixels.ts';

const EXPECTED = fileURLToPath(new URL('../picture/expected/', import.meta.url));
const KEPT = fileURLToPath(new URL('../../build/pictures/', import.meta.url));

/** Enough to see every line, in files small enough to keep. */
const PIXELS_PER_MM = 2.5;

/** Grey levels by which a pixel may differ, and the share of pixels that may differ by more: rounding at edges, nothing that is seen. */
const [LEVELS, SHARE] = [40, 0.0002] as const;

const render = (scene: Scene): Uint8Array =>
  new Resvg(sceneSvg(scene, 'outlines').replace(/ width="[^"]*mm" height="[^"]*mm"/, ''), {
    fitTo: { mode: 'zoom', value: PIXELS_PER_MM },
    font: { loadSystemFonts: false },
  })
    .render()
    .asPng();

/**
 * Compares a picture with the one kept under its name in `tests/picture/expected/`; where they differ, both and their difference, black on white,
 * are left in `build/pictures/`. `UPDATE=1` keeps the new picture, and that run fails, so that nobody keeps what nobody has looked at.
 */
export const expectSamePicture = async (name: string, scene: Scene): Promise<void> => {
  const drawn = await sharp(render(scene))
    .greyscale()
    .png({ compressionLevel: 9, palette: true, colours: 16 })
    .toBuffer();
  const path = join(EXPECTED, `${name}.png`);
  if (process.env['UPDATE'] === '1') {
    mkdirSync(EXPECTED, { recursive: true });
    writeFileSync(path, drawn);
    expect.fail(`${path} was kept: look at it, then run again without UPDATE`);
  }
  const [got, wanted] = await Promise.all([pixelsOf(drawn), pixelsOf(readFileSync(path))]);
  const same = got.width === wanted.width && got.height === wanted.height;
  const difference = Uint8Array.from(wanted.grey, (level, at) =>
    Math.abs(level - (got.grey[at] ?? 0)) > LEVELS ? 0 : 255,
  );
  const differing = difference.reduce((sum, level) => sum + (level === 0 ? 1 : 0), 0);
  if (same && differing <= difference.length * SHARE) return;
  mkdirSync(KEPT, { recursive: true });
  writeFileSync(join(KEPT, `${name}-got.png`), drawn);
  writeFileSync(join(KEPT, `${name}-expected.png`), readFileSync(path));
  const raw = { width: wanted.width, height: wanted.height, channels: 1 } as const;
  await sharp(difference, { raw })
    .png()
    .toFile(join(KEPT, `${name}-difference.png`));
  expect.fail(
    `${name} differs in ${differing} of ${difference.length} pixels${same ? '' : ', and in its size'}: see ${KEPT}${name}-difference.png`,
  );
};
