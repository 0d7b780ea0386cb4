import { StaywrightError } from '../errors.ts';
import { pathBox } from '../geometry/box.ts';
import type { Outline } from '../pattern/drawing.ts';
import type { Finding } from '../pattern/finding.ts';
import type { NamedPanel } from './name-outlines.ts';
import { sizeOf } from './shape.ts';

/** No panel of a garment is smaller or larger, in millimetres along its longer side. */
const [SMALLEST, LARGEST] = [20, 2500];

/** Past this it is not worth going on, in millimetres. */
const ABSURD = 100_000;

/** What to do about a drawing at another scale. */
export const SCALE_CURE =
  'if the drawing has another scale, say so with --scale, or with --test-square and a square of known side';

/** Refuses, as `input`, an outline over 100 m or with a coordinate that is no number. */
export const refuseAbsurdSize = (outlines: readonly Outline[]): void => {
  for (const { path, where } of outlines) {
    const box = pathBox(path);
    if (Math.max(box.maxX - box.minX, box.maxY - box.minY) <= ABSURD) continue;
    throw new StaywrightError('input', 'an outline is more than 100 m long', { where, hint: SCALE_CURE });
  }
};

/** Asks about the scale where panels are smaller or larger than any panel is. */
export const scaleFindings = (panels: readonly NamedPanel[]): Finding[] => {
  const doubtful = panels.filter(({ shape }) => !(sizeOf(shape) >= SMALLEST && sizeOf(shape) <= LARGEST));
  if (doubtful.length === 0) return [];
  const sizes = doubtful.map(({ name, shape }) => `${name} ${sizeOf(shape).toPrecision(3)} mm`).join(', ');
  const where = `panel ${doubtful[0]!.name}`;
  const message = `an unlikely size for a panel: ${sizes} long`;
  return [{ weight: 'warning', kind: 'scale-doubtful', where, message, cure: SCALE_CURE }];
};
