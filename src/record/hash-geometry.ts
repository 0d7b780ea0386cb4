import { createHash } from 'node:crypto';
import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';

/**
 * SHA-256, in hex, over the edges, levels, notches, slits and grain of all panels in order, at 3 decimals of a millimetre.
 * Placing on the sheet, allowance, labels, artwork and the record itself are no part of it.
 */
export const hashGeometry = (pattern: Pattern): string => {
  const hash = createHash('sha256');
  for (const panel of pattern.panels) for (const line of linesOf(panel)) hash.update(`${line}\n`);
  return hash.digest('hex');
};

const linesOf = ({ name, line, side, gusset, edges, levels, notches, slits = [], grain }: Panel): string[] => [
  JSON.stringify(['panel', name, line, ...(side === undefined ? [] : [side])]),
  ...(gusset === undefined ? [] : [JSON.stringify(['gusset', rounded(gusset.waistY)])]),
  ...edges.map((edge) => JSON.stringify(['edge', edge.name, ...numbersOf(edge.path)])),
  ...levels.map((level) => JSON.stringify(['level', level.name, ...[level.y, level.fromX, level.toX].map(rounded)])),
  ...notches.map((notch) => JSON.stringify(['notch', notch.edge, ...pairOf(notch.at), ...pairOf(notch.inner)])),
  ...slits.map((slit) =>
    JSON.stringify(['slit', slit.gusset, slit.edge ?? null, ...pairOf(slit.at), ...pairOf(slit.to)]),
  ),
  ...(grain === undefined ? [] : [JSON.stringify(['grain', ...pairOf(grain.from), ...pairOf(grain.to)])]),
];

const numbersOf = ({ segments }: Path): (string | number)[] => [
  ...pairOf(segments[0]!.start),
  ...segments.flatMap((segment) =>
    segment.kind === 'line'
      ? ['L', ...pairOf(segment.end)]
      : ['C', ...pairOf(segment.startHandle), ...pairOf(segment.endHandle), ...pairOf(segment.end)],
  ),
];

const pairOf = ({ x, y }: Point): number[] => [rounded(x), rounded(y)];

/** `|| 0` turns minus zero into zero. */
const rounded = (value: number): number => Math.round(value * 1000) / 1000 || 0;
