/** What happens to a paper pattern in use: gaps in its lines, faded stretches, creases, pencil marks. */
import type { Point } from '../../../src/geometry/point.ts';
import { distance, movePoint } from '../../../src/geometry/point.ts';
import { leftNormal, scaled, type Vector } from '../../../src/geometry/vector.ts';
import { alongPoints, openStroke } from './ink-shapes.ts';
import type { Random } from './random.ts';

/** How much of each; lengths in millimetres. */
export interface Worn {
  /** Gaps in each outline, each up to `widest`. */
  readonly gaps?: number;
  readonly widest?: number;
  /** Places round which the ink of an outline has faded. */
  readonly faded?: number;
  readonly creases?: number;
  /** Thin grey strokes across each outline. */
  readonly pencil?: number;
}

export interface Crease {
  readonly at: Point;
  readonly way: Vector;
  readonly spread: number;
  /** Share of light gained (lost, if negative) along its middle, and lost on one side and gained on the other. */
  readonly middle: number;
  readonly sides: number;
}

export interface Fade {
  readonly at: Point;
  readonly spread: number;
  readonly depth: number;
}

export interface Wear {
  readonly gaps: readonly (readonly Point[])[];
  readonly fades: readonly Fade[];
  readonly creases: readonly Crease[];
  readonly pencil: readonly { readonly stroke: readonly Point[]; readonly strength: number }[];
}

const CLEAR_OF_CORNERS = 4;

export const wearOf = (
  worn: Worn,
  outlines: readonly { readonly points: readonly Point[]; readonly keepClear: readonly Point[] }[],
  sheet: { readonly width: number; readonly height: number },
  lineWidth: number,
  random: Random,
): Wear => {
  const pick = (k: number): { at: Point; way: Vector } => {
    const { points, keepClear } = outlines[k]!;
    const places = alongPoints(points, 0.5).filter(({ at }) =>
      keepClear.every((p) => distance(p, at) > CLEAR_OF_CORNERS),
    );
    return places[random.below(places.length)]!;
  };
  const each = <T>(count: number, make: (k: number) => T): T[] =>
    outlines.flatMap((_, k) => Array.from({ length: count }, () => make(k)));
  return {
    gaps: each(worn.gaps ?? 0, (k) => {
      const { at, way } = pick(k);
      const wide = random.between(0.25, worn.widest ?? 0.6);
      const lean = random.between(-0.3, 0.3);
      const across = { dx: leftNormal(way).dx + lean * way.dx, dy: leftNormal(way).dy + lean * way.dy };
      return openStroke([movePoint(at, scaled(across, lineWidth)), movePoint(at, scaled(across, -lineWidth))], wide);
    }),
    fades: each(worn.faded ?? 0, (k) => ({
      at: pick(k).at,
      spread: random.between(3, 8),
      depth: random.between(0.3, 0.6),
    })),
    creases: Array.from({ length: worn.creases ?? 0 }, (_, k) => {
      const angle = (k % 2 === 0 ? 0 : Math.PI / 2) + random.between(-0.25, 0.25);
      return {
        at: { x: sheet.width * random.between(0.25, 0.75), y: sheet.height * random.between(0.25, 0.75) },
        way: { dx: Math.cos(angle), dy: Math.sin(angle) },
        spread: random.between(0.12, 0.3),
        middle: random.between(-0.16, 0.12),
        sides: random.between(-0.1, 0.1),
      };
    }),
    pencil: each(worn.pencil ?? 0, (k) => {
      const { at, way } = pick(k);
      const angle = Math.atan2(way.dy, way.dx) + random.between(0.5, 2.6);
      const [back, on] = [random.between(3, 14), random.between(3, 14)];
      const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
      const bow = random.between(-0.6, 0.6);
      const points = Array.from({ length: 13 }, (_, i) => {
        const u = -back + ((back + on) * i) / 12;
        const v = bow * (1 - ((2 * i) / 12 - 1) ** 2);
        return { x: at.x + u * dx - v * dy, y: at.y + u * dy + v * dx };
      });
      return { stroke: openStroke(points, random.between(0.25, 0.45)), strength: random.between(0.3, 0.55) };
    }),
  };
};
