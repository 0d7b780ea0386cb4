/** Where on each panel levels are raised or lowered, and between which heights. */

import { StaywrightError } from '../../errors.ts';
import { SAME_POINT } from '../../geometry/tolerance.ts';
import { seamSpan } from '../../pattern/chord.ts';
import type { LevelRef } from '../../pattern/level-ref.ts';
import { findLevel, levelNames } from '../../pattern/look-up.ts';
import type { Panel } from '../../pattern/panel.ts';
import type { Pattern } from '../../pattern/pattern.ts';
import { suggestName } from '../../pattern/suggest.ts';
import type { RaiseZone } from './raise-between.ts';
import { refuseOffPanels, sharedLevelY, sharedSpan, waistHeight } from './shared-span.ts';

/** Levels to raise, as a maker asks for it. */
export interface RaiseLine {
  readonly levels: readonly LevelRef[];
  /** Millimetres, positive upwards. */
  readonly amount: number;
  /** Where nothing moves; on a side where none is named, the next named level, or else the end of the shortest seam. */
  readonly hold: readonly LevelRef[];
}

export interface RaisePlan {
  /** The names of the levels that are raised, from the highest down. */
  readonly levels: readonly string[];
  readonly holds: { readonly above: string; readonly below: string };
  /** The part that moves, for each panel that reaches it. */
  readonly zones: ReadonlyMap<Panel, RaiseZone>;
}

type Side = 'above' | 'below';

const ENDS = { above: 'top', below: 'bottom' } as const;

const usage = (where: string, message: string, hint: string): StaywrightError =>
  new StaywrightError('usage', message, { where, hint });

/** The named levels to raise, each once, from the highest down. */
const namedLevels = (pattern: Pattern, refs: readonly LevelRef[]): string[] => {
  const names = levelNames(pattern);
  for (const { name, text, offset } of refs) {
    if (names.includes(name) && offset === 0) continue;
    if (!names.includes(name) && !['top', 'bottom'].includes(name)) {
      throw usage('--level', `no level is called ${name}`, suggestName(name, names));
    }
    throw usage(
      '--level',
      `${text} is no named level`,
      `only a level that is drawn can be raised: ${names.join(', ')}`,
    );
  }
  const wanted = new Set(refs.map(({ name }) => name));
  if (wanted.size === 0) throw usage('--level', 'which level?', `there are: ${names.join(', ')}`);
  return names.filter((name) => wanted.has(name));
};

/** The height of the raised levels, highest and lowest, on a panel that has them all. */
const raisedOn = (panel: Panel, levels: readonly string[]): readonly number[] | undefined => {
  const ys = levels.map((name) => findLevel(panel, name)?.y);
  return ys.every((y) => y !== undefined) ? ys.toSorted((a, b) => a - b) : undefined;
};

/** The next level that every one of the panels has, beyond all the raised ones on every panel. */
const nextNamed = (
  panels: readonly Panel[],
  levels: readonly string[],
  side: Side,
  names: readonly string[],
): string => {
  const order = side === 'above' ? names.toReversed() : names;
  const isBeyond = (panel: Panel, name: string): boolean => {
    const [y, ys] = [findLevel(panel, name)?.y, raisedOn(panel, levels)!];
    return y !== undefined && (side === 'above' ? y < ys[0]! - SAME_POINT : y > ys.at(-1)! + SAME_POINT);
  };
  return order.find((name) => panels.every((panel) => isBeyond(panel, name))) ?? ENDS[side];
};

/** The holds that were asked for, told apart by the side of the raised levels on which they lie. */
const askedHolds = (
  panels: readonly Panel[],
  levels: readonly string[],
  { hold }: RaiseLine,
  names: readonly string[],
): Partial<Record<Side, LevelRef>> => {
  const unknown = hold.find(({ name }) => !names.includes(name));
  if (unknown !== undefined) {
    throw usage('--hold', `no level is called ${unknown.name}`, suggestName(unknown.name, names));
  }
  const span = sharedSpan(panels);
  const holds: Partial<Record<Side, LevelRef>> = {};
  for (const ref of hold) {
    refuseOffPanels(panels, ref, '--hold');
    const sides = panels.map((panel): Side | undefined => {
      const [y, ys] = [sharedLevelY(panel, ref, span), raisedOn(panel, levels)!];
      return y < ys[0]! - SAME_POINT ? 'above' : y > ys.at(-1)! + SAME_POINT ? 'below' : undefined;
    });
    const side = sides[0];
    if (side === undefined || sides.some((other) => other !== side)) {
      throw usage(
        '--hold',
        `${ref.text} does not lie beyond the levels that move`,
        'name one above them, one below, or both',
      );
    }
    if (holds[side] !== undefined) {
      throw usage(
        '--hold',
        `${holds[side].text} and ${ref.text} both lie ${side}`,
        'name one above, one below, or both',
      );
    }
    holds[side] = ref;
  }
  return holds;
};

/** The part that moves on one panel, as it lies about the waist of another. */
const zoneOn = (panel: Panel, other: Panel, { above, levels, below }: RaiseZone): RaiseZone => {
  const off = waistHeight(panel) - waistHeight(other);
  return { above: above + off, levels: levels.map((y) => y + off), below: below + off };
};

const isBeside = (panel: Panel, { above, below }: RaiseZone): boolean => {
  const span = seamSpan(panel)!;
  return span.top > below - SAME_POINT || span.bottom < above + SAME_POINT;
};

/**
 * The levels by name and the part of each panel that moves with them, never beyond the lowest top or the highest bottom. A panel that
 * lacks a raised level stays as it is if it lies wholly beside that part; a gusset goes along as its place under the waist does.
 *
 * @throws usage for levels that are not named ones and holds that do not lie on either side; input for a panel that lacks the level but
 * reaches the part that moves, or was never labelled.
 */
export const planRaise = (pattern: Pattern, what: RaiseLine): RaisePlan => {
  for (const panel of pattern.panels) waistHeight(panel);
  const levels = namedLevels(pattern, what.levels);
  const panels = pattern.panels.filter((panel) => !panel.gusset && raisedOn(panel, levels) !== undefined);
  if (panels.length === 0) throw usage('--level', `no panel has both ${levels.join(' and ')}`, 'raise them one by one');
  const asked = askedHolds(panels, levels, what, [...levelNames(pattern), ...Object.values(ENDS)]);
  const holdOn = (side: Side): LevelRef => {
    const name = nextNamed(panels, levels, side, levelNames(pattern));
    return asked[side] ?? { name, offset: 0, text: name };
  };
  const [above, below] = [holdOn('above'), holdOn('below')];
  const span = sharedSpan(panels);
  const zones = new Map(
    panels.map((panel): [Panel, RaiseZone] => {
      const waist = waistHeight(panel);
      return [
        panel,
        {
          above: Math.max(sharedLevelY(panel, above, span), waist + span.top),
          levels: raisedOn(panel, levels)!,
          below: Math.min(sharedLevelY(panel, below, span), waist + span.bottom),
        },
      ];
    }),
  );
  const [[first, zone]] = [...zones] as [[Panel, RaiseZone]];
  for (const panel of pattern.panels) {
    const here = zones.get(panel) ?? zoneOn(panel, first, zone);
    if (zones.has(panel)) continue;
    if (panel.gusset !== undefined) {
      // Also where only the waist above it moves.
      zones.set(panel, here);
      continue;
    }
    if (isBeside(panel, here)) continue;
    const lacking = levels.find((name) => findLevel(panel, name) === undefined)!;
    throw new StaywrightError('input', `has no level ${lacking}, but its seams reach where it would move`, {
      where: `panel ${panel.name}`,
      hint: `name it there too: staywright help label`,
    });
  }
  return { levels, holds: { above: above.text, below: below.text }, zones };
};
