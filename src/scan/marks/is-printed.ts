import type { Path } from '../../geometry/path.ts';
import type { Picture } from '../picture.ts';
import type { PictureKind } from '../rough-outline.ts';
import type { Meeting } from './meet-outline.ts';
import { contrastBeside, outlineContrast } from './outline-contrast.ts';

/** Pencil that takes less than this share of the contrast of print is no mark. */
const LEAST_SHARE = 0.66;
/** Where nothing else is printed: the least contrast of a mark. */
const LEAST_CONTRAST = 0.3;
/** A faint tick counts if it is this square to an outline that has faded as much, but for this share. */
const SQUARE = (75 * Math.PI) / 180;
const AS_FADED = 0.9;

export interface PrintJudge {
  /** The least contrast of a line of a panel, if it is not a tick. */
  readonly faintest: number;
  /** Whether a tick is printed and not drawn in pencil: by its contrast, its width in pixels, and where it meets the outline. */
  readonly isPrinted: (tick: { readonly contrast: number; readonly width: number }, met: Meeting) => boolean;
}

/**
 * Tells print from pencil by contrast, on one panel. Lines are printed like their outline, and fade together with it; on cut-out pieces
 * only the other strokes tell what print is: `printed` gives the contrast of those about as wide.
 */
export const printJudge = (
  picture: Picture,
  outline: Path,
  kind: PictureKind,
  printed: (width: number) => number | undefined,
  pxPerMm: number,
): PrintJudge => {
  const ofOutline = kind === 'line' ? outlineContrast(picture, outline, pxPerMm) : undefined;
  if (ofOutline === undefined) {
    const least = (width: number): number => Math.max(LEAST_CONTRAST, LEAST_SHARE * (printed(width) ?? 0));
    return { faintest: LEAST_CONTRAST, isPrinted: ({ contrast, width }) => contrast >= least(width) };
  }
  const faintest = LEAST_SHARE * ofOutline;
  return {
    faintest,
    isPrinted: ({ contrast, width }, met) => {
      if (contrast >= faintest) return true;
      if (met.angle < SQUARE) return false;
      // Pencil that crosses the outline where it has faded is seldom square to it, and not as like it as a tick's own ink.
      const beside = contrastBeside(picture, outline, met, pxPerMm) ?? Infinity;
      const thinness = Math.min(1, (printed(width) ?? ofOutline) / ofOutline);
      return contrast >= AS_FADED * thinness * beside;
    },
  };
};
