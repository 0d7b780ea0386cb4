import { MM_PER_INCH } from '../../pattern/format-length.ts';
import type { Picture } from '../picture.ts';
import type { ScanScale } from '../traced.ts';

/** Sheets that are scanned, and what scanners are set to. */
const SHEETS = [
  [210, 297],
  [215.9, 279.4],
  [215.9, 355.6],
  [297, 420],
  [279.4, 431.8],
] as const;
const SETTINGS = [300, 200, 600, 400, 150, 1200, 100] as const;

/** A picture of a whole sheet is as large as the sheet within this share; the nearest two of the sizes above lie 4 % apart. */
const SHEET_FITS = 0.02;

/** The glass of a common scanner: a picture cut to what matters was scanned at the least setting at which it lies on that. */
const GLASS = [218, 300] as const;

/** A scale farther off than this share leads shapes to be taken for others: gaps, notches and letters are told by their size. */
const TOO_FAR_OFF = 0.15;

/** About how large a scan is, before anything is measured. */
export interface NominalScale {
  readonly dpi: number;
  readonly pxPerMm: number;
  /** What was typed is meant; what the file says of itself is a hint; a guess is no more than that. */
  readonly from: 'typed' | 'file' | 'guess';
}

/** The scale to begin with: what was typed, else what the file says, else a guess by the picture's size in pixels. */
export const nominalScale = (
  picture: Pick<Picture, 'width' | 'height'>,
  known: { readonly typed?: number | undefined; readonly file?: number | undefined },
): NominalScale => {
  const { typed, file } = known;
  const dpi = typed ?? file ?? guessedDpi(picture);
  const from = typed !== undefined ? 'typed' : file !== undefined ? 'file' : 'guess';
  return { dpi, pxPerMm: dpi / MM_PER_INCH, from };
};

/** Whether the true scale lies so far from the one begun with that outlines must be looked for again, with the true one. */
export const mustRedo = ({ pxPerMm }: NominalScale, { dpi }: Pick<ScanScale, 'dpi'>): boolean => {
  const share = (dpi.x + dpi.y) / 2 / MM_PER_INCH / pxPerMm;
  return Math.max(share, 1 / share) > 1 + TOO_FAR_OFF;
};

const guessedDpi = ({ width, height }: Pick<Picture, 'width' | 'height'>): number => {
  const [short, long] = [Math.min(width, height), Math.max(width, height)];
  let best = { dpi: 0, off: SHEET_FITS };
  for (const dpi of SETTINGS) {
    for (const [w, h] of SHEETS) {
      const off = Math.max(offBy(short, (w / MM_PER_INCH) * dpi), offBy(long, (h / MM_PER_INCH) * dpi));
      if (off < best.off) best = { dpi, off };
    }
  }
  if (best.dpi > 0) return best.dpi;
  const lies = (dpi: number, sides: 1 | 2): boolean =>
    short <= (GLASS[0] / MM_PER_INCH) * dpi && (sides === 1 || long <= (GLASS[1] / MM_PER_INCH) * dpi);
  const settings = SETTINGS.toSorted((a, b) => a - b).filter((dpi) => dpi >= 150 && dpi <= 600);
  return settings.find((dpi) => lies(dpi, 2)) ?? settings.find((dpi) => lies(dpi, 1)) ?? settings.at(-1)!;
};

const offBy = (size: number, expected: number): number => Math.abs(size / expected - 1);
