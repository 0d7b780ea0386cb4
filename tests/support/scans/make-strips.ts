import type { Picture } from '../../../src/scan/picture.ts';
import type { Truth } from './lay-out.ts';
import { makeScan } from './make-scan.ts';
import type { ScanSpec } from './scan-spec.ts';

/** One pass of the scanner over part of the sheet, with its own turn, scale errors and noise. */
export type Strip = Required<Pick<ScanSpec, 'window'>> &
  Pick<ScanSpec, 'turn' | 'shear' | 'scaleX' | 'scaleY' | 'blur' | 'lamp' | 'noise' | 'jpeg'>;

/**
 * Several scans of parts of one sheet: what is on the paper is the same in all, each pass adds its own noise and dust.
 * Every truth speaks of the whole sheet in the same millimetres; only its maps and its size in pixels are the strip's own.
 */
export const makeStrips = async (
  spec: ScanSpec,
  strips: readonly Strip[],
): Promise<{ picture: Picture; truth: Truth }[]> => {
  const scans: { picture: Picture; truth: Truth }[] = [];
  for (const [i, strip] of strips.entries()) {
    scans.push(await makeScan({ ...spec, ...strip, scanSeed: (spec.scanSeed ?? spec.seed ?? 1) * 31 + i + 1 }));
  }
  return scans;
};
