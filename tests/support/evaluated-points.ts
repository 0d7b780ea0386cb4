import type { Point } from '../../src/geometry/point.ts';
import type { Panel } from '../../src/pattern/panel.ts';

/** Points on all edges of a panel, `steps` to a segment, by the Bernstein form. */
export const evaluatedPoints = (panel: Panel, steps: number): Point[] =>
  panel.edges.flatMap(({ path }) =>
    path.segments.flatMap((s) =>
      Array.from({ length: steps + 1 }, (_, step) => {
        const t = step / steps;
        const u = 1 - t;
        if (s.kind === 'line') return { x: u * s.start.x + t * s.end.x, y: u * s.start.y + t * s.end.y };
        const [a, b, c, d] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
        return {
          x: a * s.start.x + b * s.startHandle.x + c * s.endHandle.x + d * s.end.x,
          y: a * s.start.y + b * s.startHandle.y + c * s.endHandle.y + d * s.end.y,
        };
      }),
    ),
  );
