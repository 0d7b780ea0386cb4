/** Chains of mixed alterations and their opposites, and the patterns that they are tried on. */

import { expect } from 'vitest';
import { splitSides } from '../../src/alterations/split-sides.ts';
import { distance } from '../../src/geometry/point.ts';
import type { Panel, Side } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { altered, opposite, type Undoable } from './any-alteration.ts';
import { halfPattern as bodice } from './half-pattern.ts';
import { expectSound } from './invariants.ts';
import { allShapesPattern, notched } from './mixed-patterns.ts';
import { at, letOut, takeIn } from './moves.ts';
import { farthestApart, halfPattern } from './shaped-panels.ts';
import { parallel, slashing } from './slashes.ts';
import { withGrain } from './with-grain.ts';

/** A pattern with what a chain needs to know of it. */
export interface ChainCase {
  readonly name: string;
  readonly pattern: Pattern;
  /** From centre front to centre back. */
  readonly seams: readonly string[];
  readonly panels: readonly string[];
  readonly sides?: readonly [Side, Side];
}

const FOUR = ['front', 'side-front', 'side-back', 'back'];
const FIVE = ['straight', 'curved', 'tilted', 'swinging', 'cornered'];
const BODICE = ['front', 'front-side', 'side-front', 'side-back', 'back-side', 'back'];
const FIVE_SEAMS = ['cf', 'front-side', 'side', 'side-back', 'cb'];
const SIX_SEAMS = ['cf', 'seam-1', 'seam-2', 'seam-3', 'seam-4', 'cb'];
const BODICE_SEAMS = ['cf', 'front-seam', 'bust-seam', 'side', 'back-seam', 'lacing-seam', 'cb'];

export const BODICE_CASE: ChainCase = {
  name: 'a bodice of six panels',
  pattern: withGrain(bodice()),
  seams: BODICE_SEAMS,
  panels: BODICE,
};
export const CURVED_CASE: ChainCase = {
  name: 'four curved panels',
  pattern: notched(halfPattern()),
  seams: FIVE_SEAMS,
  panels: FOUR,
};
export const SHAPES_CASE: ChainCase = {
  name: 'panels of every shape',
  pattern: allShapesPattern(),
  seams: SIX_SEAMS,
  panels: FIVE,
};
export const MIRRORED_CASE: ChainCase = {
  name: 'panels of every shape seen from their other sides',
  pattern: allShapesPattern(true),
  seams: SIX_SEAMS,
  panels: FIVE,
};
/** One side is altered, then the other, then both. */
export const SIDES_CASE: ChainCase = {
  name: 'left and right panels',
  pattern: splitSides(notched(halfPattern())).pattern,
  seams: FIVE_SEAMS,
  panels: FOUR,
  sides: ['left', 'right'],
};

const CHAIN = 25;

/** What the chain does at one step, with an amount, a seam and a panel between two seams. */
interface Step {
  readonly amount: number;
  readonly seam: string;
  readonly panel: string;
  readonly front: string;
  readonly back: string;
}

/** One of every kind; tapers, several levels and square amounts among them. */
const KINDS: readonly ((step: Step) => Undoable)[] = [
  ({ seam, amount }) => ({ kind: 'move', what: takeIn([seam], amount) }),
  ({ amount }) => ({ kind: 'raise', what: { levels: [at('waist')], amount: 2 * amount, hold: [] } }),
  ({ panel, amount }) => ({ kind: 'slash', what: slashing({ panel, spread: amount, hinge: at('waist') }) }),
  ({ seam, amount }) => ({ kind: 'redraw', what: { edge: 'top', at: [{ seam, amount }] } }),
  ({ amount }) => ({
    kind: 'length',
    what: { between: [at('bust'), at('waist')], amount: 2 * amount, direction: 'longer' },
  }),
  ({ seam, amount }) => ({
    kind: 'move',
    what: letOut([seam], amount, { where: { kind: 'above', level: at('waist') } }),
  }),
  ({ panel, amount }) => ({
    kind: 'slash',
    what: slashing({ panel, spread: amount / 2, lines: 2, hinge: at('top') }),
  }),
  ({ seam, amount }) => ({ kind: 'redraw', what: { edge: 'bottom', at: [{ seam, amount: -amount }] } }),
  ({ panel, amount }) => ({ kind: 'slash', what: parallel({ panel, spread: amount, from: 'top', keep: 'front' }) }),
  ({ amount }) => ({
    kind: 'length',
    what: { between: [at('waist'), at('hip')], amount: 2 * amount, direction: 'shorter' },
  }),
  ({ panel, front, back, amount }) => ({
    kind: 'slash',
    what: slashing({ panel, spread: amount, from: back, hinge: at(front), at: [at('waist', -40)] }),
  }),
  ({ seam, amount }) => ({
    kind: 'move',
    what: letOut([seam], {
      kind: 'at',
      at: [
        { level: at('bust'), amount },
        { level: at('waist'), amount: -amount / 2 },
        { level: at('hip'), amount: amount / 3 },
      ],
    }),
  }),
];

/** 25 alterations that overlap each other. */
export const chainOn = ({ seams, panels, sides }: ChainCase): readonly Undoable[] =>
  Array.from({ length: CHAIN }, (_, i): Undoable => {
    const side = sides?.[i % 3];
    const only = side === undefined ? {} : { side };
    const index = (i * 3) % panels.length;
    const name = panels[index]!;
    const step: Step = {
      amount: 0.6 + ((i * 7) % 11) * 0.3,
      seam: seams[(i * 2) % seams.length]!,
      // Where both sides are altered, a slashing is still of one panel.
      panel: sides === undefined ? name : `${name}-${side ?? 'left'}`,
      front: seams[index]!,
      back: seams[index + 1]!,
    };
    return { ...KINDS[i % KINDS.length]!(step), ...only };
  });

export const inARow = (chain: readonly Undoable[]): readonly Undoable[] => [
  ...chain,
  ...chain.toReversed().map(opposite),
];

export const undoneAtOnce = (chain: readonly Undoable[]): readonly Undoable[] =>
  chain.flatMap((each) => [each, opposite(each)]);

const nodesOf = ({ edges }: Panel): number => edges.reduce((sum, { path }) => sum + path.segments.length, 0);

const mostNodesMore = (start: Pattern, now: Pattern): number =>
  Math.max(...now.panels.map((panel, i) => nodesOf(panel) - nodesOf(start.panels[i]!)));

interface ChainEnd {
  readonly end: Pattern;
  /** How many nodes more than at the start a panel had at the worst of times. */
  readonly most: number;
}

/** Every alteration in turn, each result sound, `between` done to it before the next. Panels that an alteration left the very same are sound already. */
export const afterAll = (
  start: Pattern,
  chain: readonly Undoable[],
  between: (pattern: Pattern) => Pattern,
): ChainEnd => {
  let [end, most] = [start, 0];
  for (const each of chain) {
    const { pattern } = altered(end, each);
    const changed = pattern.panels.map((panel, i) => panel !== end.panels[i]);
    expect({ ...each, changed: changed.includes(true) }).toMatchObject({ changed: true });
    const only = ({ panels, ...rest }: Pattern): Pattern => ({ ...rest, panels: panels.filter((_, i) => changed[i]) });
    expectSound(only(end), only(pattern));
    end = between(pattern);
    most = Math.max(most, mostNodesMore(start, end));
  }
  return { end, most };
};

const marksOff = (before: Panel, after: Panel): number =>
  Math.max(
    ...before.notches.flatMap(({ at: point, inner }, i) => [
      distance(point, after.notches[i]!.at),
      distance(inner, after.notches[i]!.inner),
    ]),
    ...before.levels.flatMap(({ y, fromX, toX }, i) => {
      const now = after.levels[i]!;
      return [now.y - y, now.fromX - fromX, now.toX - toX].map(Math.abs);
    }),
    ...(before.grain
      ? [distance(before.grain.from, after.grain!.from), distance(before.grain.to, after.grain!.to)]
      : []),
    ...before.bones.map((bone, i) => farthestApart(bone, after.bones[i]!)),
  );

/** How far any edge, notch, level, grainline or bone is off, in millimetres. */
const farthestOff = (before: Pattern, after: Pattern): number =>
  Math.max(
    ...before.panels.flatMap((panel, i) => {
      const now = after.panels[i]!;
      return [...panel.edges.map(({ path }, j) => farthestApart(path, now.edges[j]!.path)), marksOff(panel, now)];
    }),
  );

/** Back within what is promised, and with few nodes. */
export const expectBack = (start: Pattern, { end, most }: ChainEnd): void => {
  expect(farthestOff(start, end)).toBeLessThan(BACK_WITHIN);
  expect(mostNodesMore(start, end)).toBeLessThanOrEqual(MORE_NODES);
  expect(most).toBeLessThanOrEqual(MOST_MORE_NODES);
};

/** What is promised for 25 alterations and their opposites. */
const BACK_WITHIN = 0.1;

/** On one panel of four edges or more, at the end and in between. */
const MORE_NODES = 25;
const MOST_MORE_NODES = 35;
