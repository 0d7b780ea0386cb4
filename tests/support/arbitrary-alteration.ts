/** Alterations of every kind at random: what is asked is drawn first, and laid on whatever pattern it meets by its seams and panels. */

import * as fc from 'fast-check';
import type { Where } from '../../src/alterations/seams/amount-along.ts';
import type { MoveBy } from '../../src/alterations/move-seams-options.ts';
import { KEEPS } from '../../src/alterations/slash-options.ts';
import { seamsOf, seamSidesOf } from '../../src/pattern/look-up.ts';
import type { Panel, Side } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { altered, type Alteration } from './any-alteration.ts';
import { at, letOut } from './moves.ts';

/** What to ask of a pattern once it is there. May be refused, as when its pattern for a splice cannot be made. */
export type Asking = (pattern: Pattern) => Alteration;

const NAMES = ['bust', 'underbust', 'waist', 'high-hip', 'hip'] as const;

const millimetres = (least: number, most: number): fc.Arbitrary<number> =>
  fc
    .integer({ min: least * 100, max: most * 100 })
    .filter((n) => n !== 0)
    .map((n) => n / 100);

const name = fc.constantFrom(...NAMES);
const level = fc.record({ name, offset: fc.constantFrom(-20, 0, 0, 20) }).map((l) => at(l.name, l.offset));
const pick = fc.nat({ max: 59 });
const side = fc.constantFrom<(Side | undefined)[]>(undefined, 'left', 'right');

/** Levels that are not drawn on any panel of a pattern are asked for as others that are. */
const drawn = (pattern: Pattern, wanted: string): string => {
  const names = pattern.panels.find(({ gusset }) => !gusset)!.levels.map((each) => each.name);
  return names.includes(wanted) ? wanted : names[wanted.length % names.length]!;
};

const chosen = <T>(list: readonly T[], index: number): T => list[index % list.length]!;

const seamNames = (pattern: Pattern): string[] => seamsOf(pattern).map((seam) => seam.name);

/** No panel has a side that the pattern was not split into. */
const onSide = (pattern: Pattern, wanted: Side | undefined): { readonly side?: Side } =>
  wanted !== undefined && pattern.panels.some((panel) => panel.side === wanted) ? { side: wanted } : {};

const panelOn = ({ panels }: Pattern, wanted: { readonly side?: Side }, index: number): Panel =>
  chosen(
    panels.filter((panel) => !panel.gusset && (wanted.side === undefined || panel.side === wanted.side)),
    index,
  );

const where: fc.Arbitrary<Where> = fc.oneof(
  fc.constant<Where>({ kind: 'whole' }),
  fc.record({ kind: fc.constantFrom('above' as const, 'below' as const), level }),
  fc.record({ kind: fc.constant('between' as const), levels: fc.tuple(level, level) }),
);

const by: fc.Arbitrary<MoveBy> = fc.oneof(
  fc.record({ kind: fc.constant('amount' as const), amount: millimetres(-10, 10) }),
  fc.record({ kind: fc.constant('girth' as const), girth: millimetres(-30, 30) }),
);

const uneven: fc.Arbitrary<MoveBy> = fc
  .record({ names: fc.subarray([...NAMES], { minLength: 1 }), amounts: fc.array(millimetres(-8, 8), { minLength: 5 }) })
  .map(({ names, amounts }) => ({
    kind: 'at',
    at: names.map((each, i) => ({ level: at(each), amount: chosen(amounts, i) })),
  }));

const move: fc.Arbitrary<Asking> = fc
  .record({
    seams: fc.array(pick, { minLength: 1, maxLength: 2 }),
    how: fc.oneof(
      fc.record({ by, where, square: fc.constant(false) }),
      fc.record({ by, where: fc.constant<Where>({ kind: 'whole' }), square: fc.boolean() }),
      fc.record({ by: uneven, where: fc.constant<Where>({ kind: 'whole' }), square: fc.constant(false) }),
    ),
    direction: fc.constantFrom('in' as const, 'out' as const),
    side,
  })
  .map(({ seams, how, direction, ...asked }) => (pattern) => {
    const names = seamNames(pattern);
    const named = [...new Set(seams.map((index) => chosen(names, index)))];
    const levels = how.by.kind === 'at' ? [...new Set(how.by.at.map((each) => drawn(pattern, each.level.name)))] : [];
    const amounts = how.by.kind === 'at' ? how.by.at : [];
    const what = levels.map((each, i) => ({ level: at(each), amount: amounts[i]!.amount }));
    return {
      kind: 'move',
      what: { seams: named, direction, ...how, by: how.by.kind === 'at' ? { kind: 'at', at: what } : how.by },
      ...onSide(pattern, asked.side),
    };
  });

const raise: fc.Arbitrary<Asking> = fc
  .record({ name, amount: millimetres(-18, 18), hold: fc.subarray(['top', 'bottom']), side })
  .map(({ amount, hold, ...asked }) => (pattern) => ({
    kind: 'raise',
    what: { levels: [at(drawn(pattern, asked.name))], amount, hold: hold.map((each) => at(each)) },
    ...onSide(pattern, asked.side),
  }));

const length: fc.Arbitrary<Asking> = fc
  .record({
    between: fc.subarray(['top', ...NAMES, 'bottom'], { minLength: 2, maxLength: 2 }),
    direction: fc.constantFrom('longer' as const, 'shorter' as const),
    amount: millimetres(-15, 15),
    side,
  })
  .map(({ between: [one, other], direction, amount, ...asked }) => (pattern) => {
    const named = (each: string): string => (['top', 'bottom'].includes(each) ? each : drawn(pattern, each));
    return {
      kind: 'length',
      what: { between: [at(named(one!)), at(named(other!))], direction, amount },
      ...onSide(pattern, asked.side),
    };
  });

const redraw: fc.Arbitrary<Asking> = fc
  .record({
    edge: fc.constantFrom('top' as const, 'bottom' as const),
    amounts: fc.array(fc.record({ seam: pick, amount: millimetres(-9, 9) }), { minLength: 1, maxLength: 3 }),
    side,
  })
  .map(({ edge, amounts, ...asked }) => (pattern) => {
    const names = seamNames(pattern);
    const named = new Map(amounts.map(({ seam, amount }) => [chosen(names, seam), amount]));
    return {
      kind: 'redraw',
      what: { edge, at: [...named].map(([seam, amount]) => ({ seam, amount })) },
      ...onSide(pattern, asked.side),
    };
  });

const slash: fc.Arbitrary<Asking> = fc
  .record({
    panel: pick,
    from: fc.constantFrom('top', 'bottom', 'front', 'back'),
    hinge: fc.constantFrom('level', 'opposite', 'none'),
    name,
    lines: fc.integer({ min: 1, max: 4 }),
    spread: millimetres(-4, 6),
    keep: fc.constantFrom(...KEEPS),
    side,
  })
  .map(({ from, hinge, lines, spread, keep, ...asked }) => (pattern) => {
    const only = onSide(pattern, asked.side);
    const panel = panelOn(pattern, only, asked.panel);
    const { front, back } = seamSidesOf(panel)!;
    const isDown = from === 'top' || from === 'bottom';
    const opposite = { top: 'bottom', bottom: 'top', front: back.name, back: front.name }[from]!;
    const end = hinge === 'opposite' || !isDown ? opposite : drawn(pattern, asked.name);
    return {
      kind: 'slash',
      what: {
        panel: panel.name,
        from: isDown ? from : from === 'front' ? front.name : back.name,
        lines,
        at: [],
        spread,
        keep: isDown ? keep : 'middle',
        ...(hinge === 'none' ? {} : { hinge: at(end) }),
      },
      ...only,
    };
  });

const trueing: fc.Arbitrary<Asking> = fc.constant(() => ({ kind: 'true', what: { seams: [], keep: [] } }));

const gusset: fc.Arbitrary<Asking> = fc
  .record({
    place: fc.constantFrom('seam', 'slit'),
    index: pick,
    offset: fc.integer({ min: -90, max: 20 }),
    fraction: fc.integer({ min: 30, max: 70 }),
    width: millimetres(15, 45),
    sides: fc.constantFrom('straight' as const, 'curved' as const),
    name: pick,
  })
  .map(({ place, index, offset, fraction, width, sides, ...asked }) => (pattern) => {
    const own = { width, sides, name: `gore-${asked.name}` };
    const from = at('waist', offset);
    if (place === 'slit') {
      const panel = panelOn(pattern, {}, index).name;
      return {
        kind: 'gusset',
        what: { place: { kind: 'slit', panel, level: from, fraction: fraction / 100 }, ...own },
      };
    }
    const sewn = seamsOf(pattern)
      .filter(({ edges }) => edges.length > 1)
      .map((seam) => seam.name);
    const seam = sewn.length === 0 ? 'cf' : chosen(sewn, index);
    return { kind: 'gusset', what: { place: { kind: 'seam', seam, below: from }, ...own } };
  });

const splice: fc.Arbitrary<Asking> = fc
  .record({ kind: fc.constantFrom('above' as const, 'below' as const), name, amount: millimetres(-5, 8) })
  .map(({ kind, amount, ...asked }) => (pattern) => ({
    kind: 'splice',
    what: { where: { kind, level: at(drawn(pattern, asked.name)) } },
    other: altered(pattern, { kind: 'move', what: letOut(seamNames(pattern), amount) }).pattern,
  }));

const split: fc.Arbitrary<Asking> = fc.constant(() => ({ kind: 'split' }));

/** Any alteration: those with amounts of their own more often than the others. */
export const asking: fc.Arbitrary<Asking> = fc.oneof(
  { weight: 5, arbitrary: move },
  { weight: 3, arbitrary: raise },
  { weight: 3, arbitrary: length },
  { weight: 3, arbitrary: redraw },
  { weight: 4, arbitrary: slash },
  { weight: 2, arbitrary: trueing },
  { weight: 2, arbitrary: gusset },
  { weight: 2, arbitrary: splice },
  { weight: 1, arbitrary: split },
);
