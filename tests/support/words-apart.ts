import type { Scene, Words } from '../../src/ink/scene.ts';
import { wordsBox } from '../../src/ink/words-box.ts';

/** Boxes may touch by this much, in millimetres: letters rarely fill theirs. */
const AIR = 0.3;

/** Pairs of words of a picture that stand on each other, and words that leave its paper. */
export const clashes = ({ marks, width, height }: Scene): string[] => {
  const boxes = marks
    .filter((mark): mark is Words => mark.kind === 'words' && mark.text !== '')
    .map((words) => {
      const corners = wordsBox(words);
      const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)];
      return {
        text: words.text,
        left: Math.min(...xs),
        right: Math.max(...xs),
        top: Math.min(...ys),
        bottom: Math.max(...ys),
      };
    });
  const outside = boxes.filter(
    ({ left, right, top, bottom }) => left < 0 || top < 0 || right > width || bottom > height,
  );
  const pairs = boxes.flatMap((one, at) =>
    boxes
      .slice(at + 1)
      .filter(
        (other) =>
          Math.min(one.right, other.right) - Math.max(one.left, other.left) > AIR &&
          Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > AIR,
      )
      .map((other) => `${one.text} | ${other.text}`),
  );
  return [...pairs, ...outside.map(({ text }) => `${text} | outside`)];
};
