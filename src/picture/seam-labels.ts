import { pathLength } from '../geometry/arc-length.ts';
import { pathBox } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import type { Words } from '../ink/scene.ts';
import { shortLength } from '../pattern/format-length.ts';
import type { Edge, Panel } from '../pattern/panel.ts';
import type { Units } from '../pattern/pattern.ts';
import { TYPE } from './hand.ts';
import { centred, UPWARDS } from './marks.ts';

/** From the middle of a gap to each of two labels in it. */
const ASIDE = 2.8;

/** One gap between two panels as they lie, or an end of the row: the edges that face each other across it. */
export interface RowGap {
  readonly middle: Point;
  readonly left?: Edge;
  readonly right?: Edge;
}

const middleX = ({ path }: Edge): number => (pathBox(path).minX + pathBox(path).maxX) / 2;

/** The two edges of a panel, as it lies on paper, that face its neighbours; none of one that was never labelled. */
export const facingEdges = ({ edges }: Panel): { readonly left?: Edge; readonly right?: Edge } => {
  const facing = edges
    .filter(({ name }) => name !== 'top' && name !== 'bottom')
    .toSorted((a, b) => middleX(a) - middleX(b));
  const [left, right] = facing;
  return left && right && facing.length === 2 ? { left, right } : {};
};

/** The seam's name and the lengths of its edges, running up the gap beside it; two names where two seams face each other. */
export const seamLabels = ({ middle, left, right }: RowGap, units: Units): Words[] => {
  if (left === undefined && right === undefined) return [];
  if (left && right && left.name === right.name) {
    return label(`${left.name}  ${lengthsOf([left, right], units)}`, middle);
  }
  const single = left === undefined || right === undefined;
  return [left, right].flatMap((edge, at) => {
    if (edge === undefined) return [];
    const x = single ? middle.x : middle.x + (at === 0 ? -ASIDE : ASIDE);
    return label(`${edge.name}  ${lengthsOf([edge], units)}`, { x, y: middle.y });
  });
};

const lengthsOf = (edges: readonly Edge[], units: Units): string => {
  const told = edges.map(({ path }) => shortLength(pathLength(path), units, true));
  return [...new Set(told)].join(' | ');
};

const label = (text: string, at: Point): Words[] => [
  centred({ text, at, size: TYPE.figure, align: 'middle', angle: UPWARDS, backed: true }),
];
