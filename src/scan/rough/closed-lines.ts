import type { Point } from '../../geometry/point.ts';
import { bridgeGaps } from './bridge-gaps.ts';
import { growMask } from './grow-mask.ts';
import { closedStrands } from './closed-strands.ts';
import { inkStrokes, keepPrint } from './ink-mask.ts';
import { labelFaces } from './label-faces.ts';
import { roundLoop } from './round-loop.ts';
import { solidParts, takeFromBorder } from './solid-parts.ts';
import { traceArcs } from './trace-arcs.ts';

/** Faces smaller than this, in square millimetres, are eyes of letters and crumbs between strokes. */
const SMALLEST_FACE = 1;

/** Ink this thick, in millimetres, that reaches the picture's border is no line but the dark beyond the sheet. */
const SOLID = 1.5;

/** The ink of an evened picture and the closed lines in it. */
export const closedLines = (
  even: Uint8Array,
  width: number,
  height: number,
  step: number,
  pxPerMm: number,
): { ink: Uint8Array; loops: Point[][] } => {
  const { mask: ink, printed } = inkStrokes(even, width, height, pxPerMm);
  const reach = Math.round((SOLID * pxPerMm) / 2);
  const beyond = takeFromBorder(solidParts(ink, width, height, reach), width, height);
  growMask(beyond, width, height, 1, 1.5 * reach + 3);
  for (let at = 0; at < ink.length; at += 1) if (beyond[at] !== 0) ink[at] = 0;
  const bridged = bridgeGaps({ ink, even, width, height }, pxPerMm);
  keepPrint(bridged, even, width, height, printed);
  for (let at = 0; at < ink.length; at += 1) ink[at]! &= bridged[at]!;
  const { labels, halfWidth } = labelFaces(bridged, width, height, SMALLEST_FACE * pxPerMm * pxPerMm);
  const arcs = traceArcs(labels, width, height);
  return { ink, loops: closedStrands(arcs, halfWidth, pxPerMm).map((loop) => roundLoop(loop, step)) };
};
