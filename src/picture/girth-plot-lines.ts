import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import { pointsPath } from '../geometry/points-path.ts';
import { cubic } from '../geometry/segment.ts';
import { INK, PAPER } from '../ink/colour.ts';
import { dashedToEnds, type LineStyle } from '../ink/line-style.ts';
import type { Mark } from '../ink/scene.ts';
import { FORMER, MARK, OUTLINE, WANTED } from './hand.ts';
import { straight } from './marks.ts';

/** What is plotted, from the back of the picture to the front. */
export const PLOTTED = ['body', 'pattern', 'wanted'] as const;

export type Plotted = (typeof PLOTTED)[number];

const STYLE: Readonly<Record<Plotted, LineStyle>> = { body: FORMER, wanted: WANTED, pattern: OUTLINE };

/** Of the rings of the body, of the dots of the pattern, and of the arms of a cross, which stick out of a dot beneath it. */
const [RING, DOT, ARM] = [1.4, 1.25, 1.8] as const;

export interface PlottedPoint {
  readonly level: string;
  readonly at: Point;
}

/** A line from point to point, straight between them as nothing was measured there, with a mark at each. */
export const plottedLine = (what: Plotted, points: readonly PlottedPoint[]): Mark[] => [
  ...(points.length < 2
    ? []
    : [
        straightThrough(
          points.map(({ at }) => at),
          STYLE[what],
          what,
        ),
      ]),
  ...points.flatMap(({ at, level }) => pointMarks(what, at, `${what} ${level}`)),
];

const straightThrough = (points: readonly Point[], style: LineStyle, of: string): Mark => ({
  kind: 'stroke',
  path: pointsPath(points),
  style,
  of,
});

/** The key to a line: a piece of it with its mark in the middle. */
export const lineSample = (what: Plotted, { x, y }: Point, length: number): Mark[] => [
  straight({ x, y }, { x: x + length, y }, wholeDashes(STYLE[what], length)),
  ...pointMarks(what, { x: x + length / 2, y }),
];

const wholeDashes = (style: LineStyle, length: number): LineStyle => (style.dash ? dashedToEnds(style, length) : style);

const pointMarks = (what: Plotted, at: Point, of?: string): Mark[] => {
  const named = of === undefined ? {} : { of };
  if (what === 'pattern') return [{ kind: 'area', path: circle(at, DOT), colour: INK, ...named }];
  if (what === 'body') {
    const path = circle(at, RING);
    return [
      { kind: 'area', path, colour: PAPER },
      { kind: 'stroke', path, style: { ...FORMER, dash: [] }, ...named },
    ];
  }
  return [1, -1].map((down) =>
    straight({ x: at.x - ARM, y: at.y - down * ARM }, { x: at.x + ARM, y: at.y + down * ARM }, MARK, of),
  );
};

/** The handle of a quarter circle of radius 1 that is drawn as a cubic; off by 0.03 % at most. */
const QUARTER = (4 / 3) * Math.tan(Math.PI / 8);

const circle = ({ x, y }: Point, radius: number): Path => {
  const at = (dx: number, dy: number): Point => ({ x: x + dx * radius, y: y + dy * radius });
  return {
    segments: [
      cubic(at(1, 0), at(1, QUARTER), at(QUARTER, 1), at(0, 1)),
      cubic(at(0, 1), at(-QUARTER, 1), at(-1, QUARTER), at(-1, 0)),
      cubic(at(-1, 0), at(-1, -QUARTER), at(-QUARTER, -1), at(0, -1)),
      cubic(at(0, -1), at(QUARTER, -1), at(1, -QUARTER), at(1, 0)),
    ],
  };
};
