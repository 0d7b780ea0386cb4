import type { Matrix } from '../geometry/matrix.ts';
import type { Path } from '../geometry/path.ts';
import { distance, point, type Point } from '../geometry/point.ts';
import { cubic, line, type Segment } from '../geometry/segment.ts';
import { ARC_TOLERANCE, SAME_POINT, STRAIGHTNESS } from '../geometry/tolerance.ts';
import { transformPoint } from '../geometry/transform-path.ts';
import { arcToCubics, centredArc, type Arc } from './arc-to-cubics.ts';

/** One stroke of the pen, in millimetres; closed ones end exactly where they start. */
export interface Subpath {
  readonly path: Path;
  readonly closed: boolean;
}

/** Whether both handles lie on the chord between its ends, so that the cubic draws exactly the line. */
const isStraight = (a: Point, b: Point, c: Point, d: Point): boolean => {
  const length = distance(a, d);
  const [ux, uy] = [(d.x - a.x) / length, (d.y - a.y) / length];
  const onChord = (p: Point): boolean => {
    const along = (p.x - a.x) * ux + (p.y - a.y) * uy;
    const aside = (p.x - a.x) * uy - (p.y - a.y) * ux;
    const slack = STRAIGHTNESS * length;
    return Math.abs(aside) <= slack && along >= -slack && along <= length + slack;
  };
  return length > 0 && onChord(b) && onChord(c);
};

/**
 * Draws in user units through a matrix and keeps what it drew in millimetres. Pieces of no length are dropped, straight cubics become
 * lines, quadratics become cubics exactly.
 */
export class Pen {
  readonly subpaths: Subpath[] = [];
  readonly #matrix: Matrix;
  #segments: Segment[] = [];
  #start: Point = point(0, 0);
  #current: Point = point(0, 0);
  #from: Point = point(0, 0);

  constructor(matrix: Matrix) {
    this.#matrix = matrix;
  }

  /** Where the pen is, in user units. */
  get position(): Point {
    return this.#current;
  }

  moveTo(p: Point): void {
    this.#lift(false);
    this.#start = p;
    this.#current = p;
    this.#from = transformPoint(p, this.#matrix);
  }

  lineTo(p: Point): void {
    const end = transformPoint(p, this.#matrix);
    this.#current = p;
    if (distance(this.#from, end) === 0) return;
    this.#segments.push(line(this.#from, end));
    this.#from = end;
  }

  cubicTo(handle1: Point, handle2: Point, p: Point): void {
    const [a, b, c, d] = [this.#from, ...[handle1, handle2, p].map((q) => transformPoint(q, this.#matrix))] as const;
    this.#current = p;
    if (distance(a, b!) === 0 && distance(a, c!) === 0 && distance(a, d!) === 0) return;
    this.#segments.push(isStraight(a, b!, c!, d!) ? line(a, d!) : cubic(a, b!, c!, d!));
    this.#from = d!;
  }

  quadraticTo(handle: Point, p: Point): void {
    const from = this.#current;
    const towards = (q: Point): Point => point(q.x + ((handle.x - q.x) * 2) / 3, q.y + ((handle.y - q.y) * 2) / 3);
    this.cubicTo(towards(from), towards(p), p);
  }

  arcTo(arc: Arc, p: Point): void {
    const centred = centredArc(this.#current, p, arc);
    if (!centred) return this.lineTo(p);
    const { a, b, c, d } = this.#matrix;
    const scale = Math.hypot(a, b, c, d);
    const pieces = arcToCubics(centred, ARC_TOLERANCE / (scale || 1));
    pieces.forEach(({ startHandle, endHandle, end }, i) =>
      this.cubicTo(startHandle, endHandle, i === pieces.length - 1 ? p : end),
    );
  }

  close(): void {
    const start = transformPoint(this.#start, this.#matrix);
    const last = this.#segments.at(-1);
    if (last && distance(last.end, start) <= SAME_POINT) {
      this.#segments.pop();
      const closing = { ...last, end: start };
      if (closing.kind === 'cubic' || distance(closing.start, start) > 0) this.#segments.push(closing);
    } else if (last) {
      this.#segments.push(line(last.end, start));
    }
    this.#lift(true);
    this.moveTo(this.#start);
  }

  finish(): readonly Subpath[] {
    this.#lift(false);
    return this.subpaths;
  }

  #lift(closed: boolean): void {
    if (this.#segments.length > 0) this.subpaths.push({ path: { segments: this.#segments }, closed });
    this.#segments = [];
  }
}
