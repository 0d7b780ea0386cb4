import type { Matrix } from '../../../src/geometry/matrix.ts';
import { between } from '../../../src/geometry/point.ts';
import { transformPoint } from '../../../src/geometry/transform-path.ts';
import type { RoughOutline } from '../../../src/scan/rough-outline.ts';

/** How far a rough outline strays, in millimetres to both sides. */
const STRAY = 0.2;

/** Straight sides from corner to corner (millimetres), as a rough outline has them: a point every 40th of a side, each a little out. */
export const roughOutline = (
  corners: readonly (readonly [number, number])[],
  fromMm: Matrix,
  random: (() => number) | undefined,
): RoughOutline => {
  const out = (): number => (random === undefined ? 0 : (random() - 0.5) * 2 * STRAY);
  const points = corners.flatMap(([x, y], i) => {
    const [toX, toY] = corners[(i + 1) % corners.length]!;
    return Array.from({ length: 40 }, (_, k) => {
      const p = between({ x, y }, { x: toX, y: toY }, k / 40);
      return transformPoint({ x: p.x + out(), y: p.y + out() }, fromMm);
    });
  });
  return { edge: 'ink', points };
};
