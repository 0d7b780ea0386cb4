import { locationAtLength } from '../geometry/arc-length.ts';
import { pointOn } from '../geometry/evaluate.ts';
import { pathEnd, pathStart } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import type { WalkReport } from '../measure/walk.ts';
import { formatLength } from '../pattern/format-length.ts';
import { bendWords } from '../pattern/meeting-findings.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import {
  differenceAlong,
  partsOf,
  SMOOTH_ACROSS,
  type SeamPart,
  type SeamWalk,
  type WalkedEdge,
} from '../pattern/seam-walk.ts';
import { LEADING, textMarkup } from './draw-measures.ts';

/** How far inside its edge a figure stands, in millimetres. */
const INSIDE = 3;

/** The pattern with the walked lengths written along each seam, and what does not match beside it; the geometry stays as it was. */
export const drawWalk = (pattern: Pattern, { walks }: WalkReport, within: number, units: Units): Pattern => ({
  ...pattern,
  panels: pattern.panels.map((panel) => {
    const lines = walks.flatMap((walk) =>
      ([0, 1] as const)
        .filter((at) => walk.edges[at].panel === panel)
        .map((at) => edgeMarkup(panel, walk, at, within, units)),
    );
    return lines.length === 0
      ? panel
      : { ...panel, art: `${panel.art ?? ''}<g class="measures">${lines.join('')}</g>` };
  }),
});

const edgeMarkup = (panel: Panel, walk: SeamWalk, at: 0 | 1, within: number, units: Units): string => {
  const edge = walk.edges[at];
  const write = (place: Point, lines: readonly string[]): string[] => {
    const mirrored = panel.side === 'right';
    const x = place.x + (edge.side === 'back' ? -INSIDE : INSIDE);
    const anchor = (edge.side === 'back') === mirrored ? 'start' : 'end';
    return lines.map((line, row) => textMarkup(line, mirrored ? -x : x, place.y + (row + 1) * LEADING, anchor));
  };
  const lengths = partsOf(walk).flatMap((part) =>
    write(placeAlong(edge, part), lengthLines(walk, at, part, within, units)),
  );
  const notches = walk.pairing.pairs.flatMap((pair) => {
    const [mine, mate] = [edge.notches[pair[at]]!, walk.edges[at === 0 ? 1 : 0].notches[pair[at === 0 ? 1 : 0]]!];
    const by = mate.up - mine.up;
    if (Math.abs(by) <= within) return [];
    return write(mine.notch.inner, [`mate is ${formatLength(Math.abs(by), units)} ${by > 0 ? 'higher' : 'lower'}`]);
  });
  const bends = walk.corners
    .filter((corner) => Math.abs(walk.excess[corner]) > SMOOTH_ACROSS)
    .flatMap((corner) => {
      const end = endAt(edge, corner);
      const row = edge.side === 'back' ? 0 : 1;
      const y = end.y + (corner === 'top' ? row + 1 : row - 4) * LEADING;
      return write({ x: end.x, y }, [bendWords(walk.excess[corner])]);
    });
  return [...lengths, ...notches, ...bends].join('');
};

const lengthLines = (walk: SeamWalk, at: 0 | 1, part: SeamPart, within: number, units: Units): string[] => {
  const longer = differenceAlong(walk, part) * (at === 0 ? 1 : -1);
  const length = formatLength(walk.edges[at][part]!, units);
  if (Math.abs(longer) <= within) return [length];
  return [length, `${formatLength(Math.abs(longer), units)} too ${longer > 0 ? 'long' : 'short'}`];
};

const endAt = ({ edge, side }: WalkedEdge, corner: 'top' | 'bottom'): Point =>
  (side === 'back') === (corner === 'top') ? pathStart(edge.path) : pathEnd(edge.path);

/** How far up each part its length is written: on the two edges of a panel at different heights, so that figures do not run together. */
const SHARE = { front: 0.55, back: 0.75 } as const;

const placeAlong = (edge: WalkedEdge, part: SeamPart): Point => {
  const { whole, below } = edge;
  const [low, length] = part === 'above' ? [below!, edge.above!] : [0, part === 'below' ? below! : whole];
  const up = low + length * SHARE[edge.side];
  const { path } = edge.edge;
  const { segment, t } = locationAtLength(path, edge.side === 'back' ? whole - up : up);
  return pointOn(path.segments[segment]!, t);
};
