import { pointsPath } from '../geometry/points-path.ts';
import { WASH } from '../ink/colour.ts';
import { dashedToEnds, type LineStyle } from '../ink/line-style.ts';
import type { Mark } from '../ink/scene.ts';
import { wordsWidth } from '../ink/words-box.ts';
import { CHANGED, FORMER, LEADING, MARGIN, OUTLINE, TYPE } from './hand.ts';
import { centred, straight } from './marks.ts';

/** A piece of line, then white before its words; of the ground behind a changed line. */
const [SAMPLE, AIR, GROUND] = [16, 3, 3.2] as const;

const LINE = TYPE.figure * LEADING;

/** How high the legend is. */
export const LEGEND_HEIGHT = 3 * LINE + GROUND + AIR;

const sample = (style: LineStyle, y: number): Mark => {
  const drawn = style.dash ? dashedToEnds(style, SAMPLE) : style;
  return straight({ x: MARGIN, y }, { x: MARGIN + SAMPLE, y }, drawn);
};

const ground = (y: number): Mark => ({
  kind: 'area',
  path: pointsPath(
    [
      { x: MARGIN, y: y - GROUND },
      { x: MARGIN + SAMPLE, y: y - GROUND },
      { x: MARGIN + SAMPLE, y },
      { x: MARGIN, y },
    ],
    true,
  ),
  colour: WASH,
});

/** What the three kinds of line mean, one below the other from `top` on. */
export const legend = (
  says: { readonly before: string; readonly after: string; readonly changed: string },
  top: number,
): Mark[] => {
  const rows = [
    { style: FORMER, text: says.before },
    { style: OUTLINE, text: says.after },
    { style: CHANGED, text: says.changed },
  ];
  return rows.flatMap(({ style, text }, at): Mark[] => {
    const isChanged = style === CHANGED;
    const y = top + (at + 0.5) * LINE + (isChanged ? GROUND / 2 : 0);
    const former = dashedToEnds(FORMER, SAMPLE);
    return [
      ...(isChanged
        ? [ground(y), straight({ x: MARGIN, y: y - GROUND }, { x: MARGIN + SAMPLE, y: y - GROUND }, former)]
        : []),
      sample(style, y),
      centred({ text, at: { x: MARGIN + SAMPLE + AIR, y }, size: TYPE.figure }),
    ];
  });
};

export const legendWidth = (texts: readonly string[]): number =>
  MARGIN + SAMPLE + AIR + Math.max(...texts.map((text) => wordsWidth(text, TYPE.figure)));
