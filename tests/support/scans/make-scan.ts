/**
 * Scans that are made up, with the truth known exactly.
 *
 *     const { picture, truth } = await makeScan({ kind: 'line', dpi: 300, ...smallSheet(), turn: 1.5, noise: 3, jpeg: 75, seed: 7 });
 *     const file = await encodeScan(picture, 'png');                // bytes for readPicture or a file   (encode-scan.ts)
 *     const scores = scoreTrace(panelsInMm, truth);                  // how far a trace is off            (score-trace.ts)
 *     const [left, right] = await makeStrips(spec, [...]);           // one sheet in overlapping parts    (make-strips.ts)
 *     scanCases(seed)                                                // the cases the goals speak of; oddCases: some more  (cases.ts)
 *
 * `smallSheet()` (80 x 122 mm), `closeSheet()` (82 x 102), `fullSheet()` (164 x 206) and `wideSheet()` (A3) of cases.ts place panels and the test square.
 * Everything is seeded: the same spec gives the same bytes. `seed` settles what is on the paper (creases, gaps, pencil), `scanSeed`
 * (by default the same) what one run of the scanner adds (noise, dust): two strips of one sheet differ in that only.
 *
 * The picture is drawn in light: polygons no farther than 1e-4 mm from the truth go through the exact affine map, each pixel takes the
 * exact share that they cover, then comes the blur, the lamp, the sRGB curve, the noise and the rounding; last JPEG, if asked for.
 * It is done in bands of rows, so a 70-megapixel picture needs little more than its own bytes.
 */
import sharp from 'sharp';
import type { Picture } from '../../../src/scan/picture.ts';
import { drawBand } from './draw-band.ts';
import { developBand, kernelOf } from './develop-band.ts';
import { coverRoom } from './cover.ts';
import { layOut, type Truth } from './lay-out.ts';
import type { ScanSpec } from './scan-spec.ts';

const BAND_PIXELS = 1_000_000;

/** The picture before any compression. */
export const drawScan = (spec: ScanSpec): { picture: Picture; truth: Truth } => {
  const { truth, drawing } = layOut(spec);
  const { width, height } = truth;
  const grey = new Uint8Array(width * height);
  const kernel = kernelOf(spec.blur ?? 0.7);
  const reach = (kernel.length - 1) / 2;
  const rows = Math.max(2 * reach + 1, Math.min(height, Math.ceil(BAND_PIXELS / width)));
  const room = { width, top: 0, height: rows + 2 * reach };
  const sums = coverRoom(room);
  const light = new Float32Array(width * room.height);
  const ink = new Float32Array(width * room.height);
  for (let top = 0; top < height; top += rows) {
    const band = { width, top: top - reach, height: Math.min(rows, height - top) + 2 * reach };
    drawBand(drawing, band, light, ink, sums);
    developBand(spec, truth, band, light, ink, kernel, grey);
  }
  return { picture: { width, height, grey }, truth };
};

/** A scan by its spec, compressed if the spec says so, with its truth. */
export const makeScan = async (spec: ScanSpec): Promise<{ picture: Picture; truth: Truth }> => {
  const { picture, truth } = drawScan(spec);
  if (spec.threshold !== undefined) {
    const level = spec.threshold;
    for (let i = 0; i < picture.grey.length; i += 1) picture.grey[i] = picture.grey[i]! < level ? 0 : 255;
  }
  if (spec.jpeg === undefined) return { picture, truth };
  const { width, height } = picture;
  const packed = await sharp(picture.grey, { raw: { width, height, channels: 1 }, limitInputPixels: false })
    .jpeg({ quality: spec.jpeg })
    .toBuffer();
  const grey = await sharp(packed, { limitInputPixels: false }).toColourspace('b-w').raw().toBuffer();
  return { picture: { width, height, grey: new Uint8Array(grey.buffer, grey.byteOffset, width * height) }, truth };
};
