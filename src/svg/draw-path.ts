import type { Command } from 'svg-path-parser';
import { point, type Point } from '../geometry/point.ts';
import type { Pen } from './pen.ts';

/** Draws path data with a pen, by the rules of SVG: relative commands, smooth ones, and what follows a closed piece. */
export const drawPath = (commands: readonly Command[], pen: Pen): void => {
  /** The handle that a smooth command mirrors, with the kind of curve that it belongs to. */
  let handle: { readonly kind: 'cubic' | 'quadratic'; readonly at: Point } | undefined;
  const mirrored = (kind: 'cubic' | 'quadratic'): Point => {
    const { x, y } = pen.position;
    return handle?.kind === kind ? point(2 * x - handle.at.x, 2 * y - handle.at.y) : point(x, y);
  };

  for (const c of commands) {
    const { x, y } = pen.position;
    const [originX, originY] = c.relative ? [x, y] : [0, 0];
    const at = (toX: number, toY: number): Point => point(originX + toX, originY + toY);
    let next: typeof handle;
    switch (c.command) {
      case 'moveto':
        pen.moveTo(at(c.x, c.y));
        break;
      case 'lineto':
        pen.lineTo(at(c.x, c.y));
        break;
      case 'horizontal lineto':
        pen.lineTo(point(originX + c.x, y));
        break;
      case 'vertical lineto':
        pen.lineTo(point(x, originY + c.y));
        break;
      case 'curveto':
        next = { kind: 'cubic', at: at(c.x2, c.y2) };
        pen.cubicTo(at(c.x1, c.y1), next.at, at(c.x, c.y));
        break;
      case 'smooth curveto':
        next = { kind: 'cubic', at: at(c.x2, c.y2) };
        pen.cubicTo(mirrored('cubic'), next.at, at(c.x, c.y));
        break;
      case 'quadratic curveto':
        next = { kind: 'quadratic', at: at(c.x1, c.y1) };
        pen.quadraticTo(next.at, at(c.x, c.y));
        break;
      case 'smooth quadratic curveto':
        next = { kind: 'quadratic', at: mirrored('quadratic') };
        pen.quadraticTo(next.at, at(c.x, c.y));
        break;
      case 'elliptical arc':
        pen.arcTo({ rx: c.rx, ry: c.ry, turn: c.xAxisRotation, large: c.largeArc, sweep: c.sweep }, at(c.x, c.y));
        break;
      case 'closepath':
        pen.close();
    }
    handle = next;
  }
};
