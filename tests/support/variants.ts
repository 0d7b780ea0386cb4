import { compose, IDENTITY, rotation, scaling, translation, type Matrix } from '../../src/geometry/matrix.ts';
import type { Path } from '../../src/geometry/path.ts';
import type { Point } from '../../src/geometry/point.ts';
import { reversePath } from '../../src/geometry/reverse-path.ts';
import { transformPath, transformPoint } from '../../src/geometry/transform-path.ts';

/** One way to redraw a shape, under which every answer must follow. */
export interface Variant {
  readonly name: string;
  readonly scale: number;
  readonly mirrored: boolean;
  readonly reversed: boolean;
  readonly path: (path: Path) => Path;
  readonly point: (p: Point) => Point;
}

const variant = (name: string, matrix: Matrix, scale: number, mirrored: boolean, reversed: boolean): Variant => ({
  name,
  scale,
  mirrored,
  reversed,
  path: (path) => {
    const moved = transformPath(path, matrix);
    return reversed ? reversePath(moved) : moved;
  },
  point: (p) => transformPoint(p, matrix),
});

/** The shape as drawn, scaled, turned, mirrored, reversed, and far away. */
export const VARIANTS: readonly Variant[] = [
  variant('as drawn', IDENTITY, 1, false, false),
  variant('scaled by 1000', scaling(1000), 1000, false, false),
  variant('scaled by 1/100', scaling(0.01), 0.01, false, false),
  variant('turned', rotation(0.7), 1, false, false),
  variant('turned a quarter', rotation(Math.PI / 2), 1, false, false),
  variant('mirrored', scaling(-1, 1), 1, true, false),
  variant('reversed', IDENTITY, 1, false, true),
  variant('moved 3 metres away', compose(translation(3000, -3000), rotation(2)), 1, false, false),
  variant('mirrored, turned and reversed', compose(rotation(1.1), scaling(1, -1)), 1, true, true),
];
