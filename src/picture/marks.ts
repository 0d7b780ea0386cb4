import { pointsPath } from '../geometry/points-path.ts';
import type { Point } from '../geometry/point.ts';
import type { LineStyle } from '../ink/line-style.ts';
import type { Stroke, Words } from '../ink/scene.ts';

/** A straight line from point to point. */
export const straight = (from: Point, to: Point, style: LineStyle, of?: string): Stroke => ({
  kind: 'stroke',
  path: pointsPath([from, to]),
  style,
  ...(of === undefined ? {} : { of }),
});

/** From the base line up to the middle of small letters, as a share of their size. */
const MIDDLE = 0.36;

/** Words whose middle line, not base line, runs through `at`; turned about it. */
export const centred = (words: Omit<Words, 'kind'>): Words => {
  const { at, size, angle = 0 } = words;
  const down = MIDDLE * size;
  return {
    kind: 'words',
    ...words,
    at: { x: at.x - down * Math.sin(angle), y: at.y + down * Math.cos(angle) },
  };
};

/** A quarter turn to the left: upwards, as on the spine of a book. */
export const UPWARDS = -Math.PI / 2;
