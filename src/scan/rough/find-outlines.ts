import type { Point } from '../../geometry/point.ts';
import type { Picture } from '../picture.ts';
import type { PictureKind, RoughOutline } from '../rough-outline.ts';
import type { WorkingPicture } from '../working-picture.ts';
import { closedLines } from './closed-lines.ts';
import { cutPieces } from './cut-pieces.ts';
import { evenLight } from './even-light.ts';
import { longerSide } from './longer-side.ts';
import { nestOutlines } from './nest-outlines.ts';
import { reducePicture, workingStep } from './reduce-picture.ts';
import { tellKind } from './tell-kind.ts';
import { withoutFrames } from './without-frames.ts';

/** Closed lines with both sides of their box shorter than this, in millimetres, are letters and signs. */
const SMALLEST = 8;

/** What a picture shows at working size. */
export interface FoundOutlines {
  readonly kind: PictureKind;
  readonly working: WorkingPicture;
  readonly outlines: RoughOutline[];
  /** How many cut-out pieces were left out because the picture's border cuts them off. */
  readonly cut: number;
}

/**
 * The closed outlines of a picture, each within about 0.3 mm of the truth away from corners and about 1 mm at them; `pxPerMm` need be
 * right to a few per cent only. Of a picture of lines these are all closed lines of 8 mm and more, whatever crosses or touches them; of
 * cut-out pieces, their edges and the closed lines on them. Dashed lines, frames round other outlines and the edge of the sheet are not
 * among them. The kind is told from the picture unless `asked`.
 */
export const findOutlines = (picture: Picture, pxPerMm: number, asked?: PictureKind): FoundOutlines => {
  const step = workingStep(pxPerMm);
  const scale = pxPerMm / step;
  const reduced = reducePicture(picture, step);
  const { width, height, light } = reduced;
  const kind = asked ?? tellKind(reduced, scale);
  const large = (points: readonly Point[]): boolean => longerSide(points) >= SMALLEST * pxPerMm;
  if (kind === 'line') {
    const { ink, loops } = closedLines(evenLight(reduced, scale), width, height, step, scale);
    const all = loops.filter(large).map((points) => ({ edge: 'ink' as const, points }));
    return {
      kind,
      working: { step, width, height, light, ink },
      outlines: withoutFrames(nestOutlines(all), pxPerMm, picture.width * picture.height),
      cut: 0,
    };
  }
  const { edge, mask, pieces, cut } = cutPieces(reduced, scale);
  const { ink, loops } = closedLines(evenLight(reduced, scale, mask), width, height, step, scale);
  const edges = pieces.filter(large).map((points) => ({ edge, points }));
  const rings = loops.filter(large).map((points) => ({ edge: 'ink' as const, points }));
  const outlines = nestOutlines([...edges, ...rings]);
  return { kind, working: { step, width, height, light, ink }, outlines, cut };
};
