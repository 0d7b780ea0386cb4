import { scaling } from '../geometry/matrix.ts';
import { transformPath } from '../geometry/transform-path.ts';
import type { LineStyle } from '../ink/line-style.ts';
import type { Mark, Scene } from '../ink/scene.ts';

/** The same picture so many times as large, its lines and letters too. */
export const enlargedScene = ({ marks, width, height, ...scene }: Scene, factor: number): Scene => ({
  ...scene,
  width: width * factor,
  height: height * factor,
  marks: marks.map((mark) => enlargedMark(mark, factor)),
});

const enlargedMark = (mark: Mark, factor: number): Mark => {
  if (mark.kind === 'words') {
    return { ...mark, at: { x: mark.at.x * factor, y: mark.at.y * factor }, size: mark.size * factor };
  }
  const path = transformPath(mark.path, scaling(factor));
  return mark.kind === 'area' ? { ...mark, path } : { ...mark, path, style: enlargedStyle(mark.style, factor) };
};

const enlargedStyle = ({ width, dash, ...style }: LineStyle, factor: number): LineStyle => ({
  ...style,
  width: width * factor,
  ...(dash === undefined ? {} : { dash: dash.map((part) => part * factor) }),
});
