import type { Mark, Words } from '../ink/scene.ts';
import { MM_PER_INCH } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { HAIR, LEADING, TYPE } from './hand.ts';
import { straight } from './marks.ts';

/** Round steps between two lines, in the unit itself. */
const STEPS: Readonly<Record<Units, readonly number[]>> = {
  mm: [10, 20, 50, 100, 200, 500, 1000, 2000, 5000],
  in: [1, 2, 4, 6, 12, 24, 60, 120, 240],
};

/** More lines than these would be a net. */
const MOST_STEPS = 8;

/** Free of points at both ends, as a share of a step. */
const FREE_END = 0.1;

/** Where girths lie across the plot. */
export interface GirthAxis {
  /** The round girths that bear a line, in millimetres, each with its figure. */
  readonly ticks: readonly { readonly mm: number; readonly text: string }[];
  readonly x: (mm: number) => number;
  readonly left: number;
  readonly right: number;
}

/** The axis that holds all girths between two lines of it, in as fine steps as leave it legible; it need not begin at nothing. */
export const girthAxis = (
  girths: readonly number[],
  units: Units,
  { left, right }: { readonly left: number; readonly right: number },
): GirthAxis => {
  const unit = units === 'in' ? MM_PER_INCH : 1;
  const [least, most] = [Math.min(...girths) / unit, Math.max(...girths) / unit];
  const ends = (step: number): readonly [number, number] => [
    Math.floor(least / step - FREE_END),
    Math.ceil(most / step + FREE_END),
  ];
  const count = (step: number): number => ends(step)[1] - ends(step)[0];
  const step = STEPS[units].find((each) => count(each) <= MOST_STEPS) ?? (most - least || 1);
  const [first] = ends(step);
  const ticks = Array.from({ length: count(step) + 1 }, (_, at) => {
    const value = (first + at) * step;
    return { mm: value * unit, text: String(Math.round(value)) };
  });
  const [from, to] = [ticks[0]!.mm, ticks.at(-1)!.mm];
  return { ticks, left, right, x: (mm) => left + ((mm - from) / (to - from)) * (right - left) };
};

/** The lines of the axis from `top` to `bottom`, their figures at both ends, and above them what they count and where they begin. */
export const axisMarks = (
  { ticks, x, left, right }: GirthAxis,
  {
    top,
    bottom,
    of,
    units,
  }: { readonly top: number; readonly bottom: number; readonly of: string; readonly units: Units },
): { readonly lines: readonly Mark[]; readonly words: readonly Words[] } => {
  const figure = (text: string, mm: number, y: number): Words => ({
    kind: 'words',
    text,
    at: { x: x(mm), y },
    size: TYPE.small,
    align: 'middle',
  });
  const says = `${of} in ${units === 'in' ? 'inches' : 'mm'}, from ${ticks[0]!.text} on`;
  return {
    lines: ticks.map(({ mm, text }) =>
      straight({ x: x(mm), y: top }, { x: x(mm), y: bottom }, HAIR, `girth ${text} ${units}`),
    ),
    words: [
      ...ticks.flatMap(({ mm, text }) => [
        figure(text, mm, top - TYPE.small * 0.5),
        figure(text, mm, bottom + TYPE.small * 1.2),
      ]),
      {
        kind: 'words',
        text: says,
        at: { x: (left + right) / 2, y: top - TYPE.small * (0.5 + LEADING * 1.1) },
        size: TYPE.small,
        align: 'middle',
      },
    ],
  };
};
