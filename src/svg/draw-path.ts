import { point, type Point } from '../geometry/point.ts';
import type { Pen } from './pen.ts';
import type { PathCommand } from './path-commands.ts';

/** Draws path data with a pen, by the rules of SVG: relative commands, smooth ones, and what follows a closed piece. */
export const drawPath = (commands: readonly PathCommand[], pen: Pen): void => {
  /** The handle that a smooth command mirrors, with the kind of curve that it belongs to. */
  let handle: { readonly kind: 'cubic' | 'quadratic'; readonly at: Point } | undefined;
  const mirrored = (kind: 'cubic' | 'quadratic'): Point => {
    const { x, y } = pen.position;
    return handle?.kind === kind ? point(2 * x - handle.at.x, 2 * y - handle.at.y) : point(x, y);
  };

  for (const { letter, values } of commands) {
    const { x, y } = pen.position;
    const relative = letter === letter.toLowerCase();
    const [originX, originY] = relative ? [x, y] : [0, 0];
    const at = (i: number): Point => point(originX + values[i]!, originY + values[i + 1]!);
    let next: typeof handle;
    switch (letter.toUpperCase()) {
      case 'M':
        pen.moveTo(at(0));
        break;
      case 'L':
        pen.lineTo(at(0));
        break;
      case 'H':
        pen.lineTo(point(originX + values[0]!, y));
        break;
      case 'V':
        pen.lineTo(point(x, originY + values[0]!));
        break;
      case 'C':
        next = { kind: 'cubic', at: at(2) };
        pen.cubicTo(at(0), at(2), at(4));
        break;
      case 'S':
        next = { kind: 'cubic', at: at(0) };
        pen.cubicTo(mirrored('cubic'), at(0), at(2));
        break;
      case 'Q':
        next = { kind: 'quadratic', at: at(0) };
        pen.quadraticTo(at(0), at(2));
        break;
      case 'T':
        next = { kind: 'quadratic', at: mirrored('quadratic') };
        pen.quadraticTo(next.at, at(0));
        break;
      case 'A': {
        const [rx, ry, turn, large, sweep] = values;
        pen.arcTo({ rx: rx!, ry: ry!, turn: turn!, large: large === 1, sweep: sweep === 1 }, at(5));
        break;
      }
      default:
        pen.close();
    }
    handle = next;
  }
};
