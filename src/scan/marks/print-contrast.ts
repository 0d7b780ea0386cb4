/** How dark the print on a panel is: pencil, which is no mark, is lighter than that. */
import type { Line } from '../../geometry/segment.ts';
import { edgeReader } from '../outline/edge-reader.ts';
import type { Picture } from '../picture.ts';

/** Millimetres: strokes shorter than this are not read; longer ones at each of so many; less of them in all says nothing. */
const SHORTEST = 1.5;
const SPACING = 4;
const LEAST = 10;
const REACH = 0.4;
/** Print is as strong as the stroke that this share of the ink is weaker than: pencil in between does not matter. */
const RANK = 0.75;
/** Thin strokes are blurred: only those up to so many times as wide as a stroke tell what its contrast would be in print. */
const WIDER = 1.5;

interface Reading {
  readonly contrast: number;
  /** Pixels: how wide, and how much of a stroke it stands for. */
  readonly width: number;
  readonly long: number;
}

/** Reads straight pieces of strokes; one and a half millimetres is the least. */
const readPieces = (picture: Picture, pieces: readonly Line[], pxPerMm: number): Reading[] => {
  const read = edgeReader(picture, 'ink', pxPerMm, REACH * pxPerMm);
  return pieces.flatMap(({ start, end }) => {
    const [x, y] = [end.x - start.x, end.y - start.y];
    const all = Math.hypot(x, y);
    if (all < SHORTEST * pxPerMm) return [];
    const count = Math.ceil(all / (SPACING * pxPerMm));
    return Array.from({ length: count }, (_, k) => (k + 0.5) / count).flatMap((t) => {
      const reading = read({ x: start.x + x * t, y: start.y + y * t }, { dx: -y / all, dy: x / all });
      return reading ? [{ contrast: reading.contrast, width: reading.width ?? 0, long: all / count }] : [];
    });
  });
};

/**
 * The contrast that a stroke of some width, in pixels, would have if it were printed as other strokes of the panel are, given as their
 * straight pieces; nothing where less than 10 mm of them are about as thin.
 */
export const printContrast = (
  picture: Picture,
  pieces: readonly Line[],
  pxPerMm: number,
): ((width: number) => number | undefined) => {
  let readings: Reading[] | undefined;
  return (width) => {
    readings ??= readPieces(picture, pieces, pxPerMm).toSorted((a, b) => a.contrast - b.contrast);
    const like = readings.filter((r) => r.width <= WIDER * width);
    const total = like.reduce((sum, r) => sum + r.long, 0);
    if (total < LEAST * pxPerMm) return undefined;
    let below = 0;
    return like.find((r) => (below += r.long) >= RANK * total)?.contrast;
  };
};
