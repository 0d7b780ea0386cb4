import { MM_PER_INCH } from '../../pattern/format-length.ts';
import { usage } from '../../errors.ts';
import type { Finding } from '../../pattern/finding.ts';
import type { ScanScale } from '../traced.ts';

/** Two numbers of pixels to the inch may be one setting of a scanner up to this share. */
export const SAME_SETTING = 0.04;

/** A scale, and what a maker should know about it. */
export interface ScaleFound {
  readonly scale: ScanScale;
  readonly findings: readonly Finding[];
}

/**
 * The scale by pixels to the inch: what was typed, else what the file says of itself, which is a hint and gets a warning. How right it is
 * nobody knows: scanners stretch by up to 2 %. Throws a `usage` error where neither is known.
 */
export const scaleFromDpi = (
  { typed, file }: { readonly typed?: number | undefined; readonly file?: number | undefined },
  name: string,
): ScaleFound => {
  if (typed !== undefined) {
    const differ = file !== undefined && Math.abs(file / typed - 1) > SAME_SETTING;
    return { scale: evenScale('dpi', typed), findings: differ ? [differs(typed, file, name)] : [] };
  }
  if (file !== undefined) return { scale: evenScale('file', file), findings: [onlyTheFile(file, name)] };
  throw usage(
    'nothing says how large this scan is',
    name,
    'add --test-square 50mm if a square of that side is printed on it, or --dpi with what the scanner was set to, like --dpi 300',
  );
};

const evenScale = (how: 'dpi' | 'file', dpi: number): ScanScale => ({
  how,
  toMm: { a: MM_PER_INCH / dpi, b: 0, c: 0, d: MM_PER_INCH / dpi, e: 0, f: 0 },
  dpi: { x: dpi, y: dpi },
  turn: 0,
  shear: 0,
});

const onlyTheFile = (dpi: number, where: string): Finding => ({
  weight: 'warning',
  kind: 'scale-from-file',
  where,
  message: `the size is only what the file says of itself (${dpi} dpi)`,
  cure: 'measure one line, or scan a square of known side and add --test-square',
});

const differs = (typed: number, file: number, where: string): Finding => ({
  weight: 'warning',
  kind: 'dpi-differs',
  where,
  message: `--dpi says ${typed}, the file says ${file}: ${typed} is taken`,
  cure: 'measure one line on paper and in the result',
});
