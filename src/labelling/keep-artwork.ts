import { compose, scaling, translation, type Matrix } from '../geometry/matrix.ts';
import { transformPath, transformPoint } from '../geometry/transform-path.ts';
import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import { roundNumber, roundPath } from '../geometry/round-path.ts';
import type { Artwork } from '../pattern/drawing.ts';

/** Decimals of a turn or mirroring in a written transform: a thousandth of a millimetre over 10 m. */
const TURN_DECIMALS = 7;

/** Markup moved with its panel. On a mirrored panel each mark is carried to its place without being mirrored itself, so that words stay readable. */
export const moveArtwork = (artwork: readonly Artwork[], matrix: Matrix): string =>
  artwork.map(({ markup, at }) => `<g transform="${transformText(keepReadable(matrix, at))}">${markup}</g>`).join('\n');

const keepReadable = (matrix: Matrix, at: Point): Matrix => {
  if (matrix.a * matrix.d - matrix.b * matrix.c > 0) return matrix;
  const mirrorAtMark = compose(translation(at.x, at.y), compose(scaling(-1, 1), translation(-at.x, -at.y)));
  const kept = compose(matrix, mirrorAtMark);
  const moved = transformPoint(at, matrix);
  const now = transformPoint(at, kept);
  return compose(translation(moved.x - now.x, moved.y - now.y), kept);
};

const transformText = ({ a, b, c, d, e, f }: Matrix): string =>
  `matrix(${[a, b, c, d].map((value) => Number(value.toFixed(TURN_DECIMALS)) + 0).join(' ')} ${roundNumber(e)} ${roundNumber(f)})`;

/** Drawn lines as thin strokes in the panel's coordinates. */
export const drawArtwork = (paths: readonly Path[], matrix: Matrix): string =>
  paths
    .map(
      (path) =>
        `<path d="${pathText(roundPath(transformPath(path, matrix)))}" fill="none" stroke="#777" stroke-width="0.25"/>`,
    )
    .join('\n');

const place = (p: Point): string => `${p.x} ${p.y}`;

const pathText = (path: Path): string => {
  const [first] = path.segments;
  const steps = path.segments.map((s) =>
    s.kind === 'line' ? `L ${place(s.end)}` : `C ${place(s.startHandle)} ${place(s.endHandle)} ${place(s.end)}`,
  );
  return [`M ${place(first!.start)}`, ...steps].join(' ');
};
