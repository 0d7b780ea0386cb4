import * as fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import { StaywrightError } from '../../src/errors.ts';
import { girthAt, levelCalled } from '../../src/pattern/girth-at.ts';
import { levelNames } from '../../src/pattern/look-up.ts';
import type { Edge, Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { altered, type Alteration, type Altered } from '../support/any-alteration.ts';
import { asking, type Asking } from '../support/arbitrary-alteration.ts';
import { halfPattern as bodice } from '../support/half-pattern.ts';
import { expectSound, expectSoundPanel } from '../support/invariants.ts';
import { allShapesPattern, notched, pairOfShapes } from '../support/mixed-patterns.ts';
import { allShapes, halfPattern, mirrored, patternOf } from '../support/shaped-panels.ts';
import { sheetOf } from '../svg/drawn-svg.ts';

/** A refusal looks for the largest amount that works: some thirty alterations. */
vi.setConfig({ testTimeout: 120_000 });

const shape = fc
  .record({ make: fc.constantFrom(...allShapes), flip: fc.boolean() })
  .map(({ make, flip }) => (flip ? mirrored(make()) : make()));

const pattern: fc.Arbitrary<Pattern> = fc.oneof(
  { weight: 4, arbitrary: shape.map((panel) => notched(patternOf(panel))) },
  { weight: 4, arbitrary: fc.tuple(shape, shape).map(([one, other]) => pairOfShapes(one, other)) },
  { weight: 1, arbitrary: fc.boolean().map(allShapesPattern) },
  { weight: 1, arbitrary: fc.constantFrom(bodice(), notched(halfPattern())) },
);

interface Step {
  readonly asked: Alteration;
  readonly done: Altered;
}

/** The alteration and what came of it, or undefined where it was refused; anything else that is thrown is a bug. */
const attempted = (before: Pattern, ask: Asking): Step | undefined => {
  try {
    const asked = ask(before);
    return { asked, done: altered(before, asked) };
  } catch (error) {
    if (error instanceof StaywrightError) return undefined;
    throw error;
  }
};

/** Whether an alteration has any business with an edge of a panel. */
const concerns = (asked: Alteration, panel: Panel, edge: Edge): boolean => {
  const isEnd = edge.name === 'top' || edge.name === 'bottom';
  if ('side' in asked && asked.side !== undefined && panel.side !== asked.side) return false;
  switch (asked.kind) {
    case 'move':
      return panel.edges.some(({ name }) => asked.what.seams.includes(name));
    case 'raise':
      return !isEnd || panel.gusset !== undefined;
    case 'redraw':
      return !isEnd || edge.name === asked.what.edge;
    case 'slash':
      return panel.name === asked.what.panel;
    case 'gusset':
    case 'split':
      return false;
    case 'length':
    case 'true':
    case 'splice':
      return true;
  }
};

/** Edges without business are the very same objects, and so is every edge that was written anew without a change. */
const expectUntouched = (before: Pattern, { asked, done }: Step): void => {
  for (const panel of done.pattern.panels) {
    const old = before.panels.find(({ name }) => name === panel.name);
    for (const [i, edge] of panel.edges.entries()) {
      const was = old?.edges[i];
      if (was === undefined || was === edge) continue;
      expect([panel.name, edge.name, concerns(asked, panel, edge)]).toEqual([panel.name, edge.name, true]);
      expect(edge.path).not.toEqual(was.path);
    }
  }
};

/** A gusset and a split make new panels; all else keeps those that there are. */
const expectSoundOutcome = (before: Pattern, { asked, done }: Step): void => {
  if (asked.kind !== 'gusset' && asked.kind !== 'split') return expectSound(before, done.pattern);
  expect(done.pattern.panels.length).toBeGreaterThan(before.panels.length);
  for (const panel of done.pattern.panels) expectSoundPanel(panel);
};

/** What it says the girths are now is what the pattern measures. A level half-way between others has a rounded name: it is not measured again. */
const girthsOff = ({ looked, girth }: Altered): number => {
  const names = [...levelNames(looked), 'bottom'];
  const named = girth.filter(({ level }) => names.includes(level));
  return Math.max(0, ...named.map(({ level, after }) => Math.abs(girthAt(looked, levelCalled(level)).girth - after)));
};

const nodesOf = ({ edges }: Panel): number => edges.reduce((sum, { path }) => sum + path.segments.length, 0);

const mostNodes = ({ panels }: Pattern): number => Math.max(...panels.map(nodesOf));

const expectSameBytes = (now: Pattern): Pattern => {
  const text = writeSheet({ pattern: now, record: [] });
  const read = sheetOf(text).pattern;
  expect(writeSheet({ pattern: read, record: [] })).toBe(text);
  return read;
};

/** On one panel, over six alterations. */
const MORE_NODES = 40;

/** What was asked so far, for the message of a failure; the other pattern of a splice is left out. */
const inWords = (asked: readonly Alteration[]): string =>
  asked.map((each) => JSON.stringify({ ...each, other: undefined })).join('\n');

/** Everything that must hold after a step; the pattern as the next command would read it. */
const check = (start: Pattern, before: Pattern, step: Step, asked: readonly Alteration[]): Pattern => {
  try {
    expectSoundOutcome(before, step);
    expectUntouched(before, step);
    expect(girthsOff(step.done)).toBeLessThan(0.01);
    expect(mostNodes(step.done.pattern)).toBeLessThanOrEqual(mostNodes(start) + MORE_NODES);
    return expectSameBytes(step.done.pattern);
  } catch (cause) {
    throw new Error(`after\n${inWords(asked)}\n${(cause as Error).message}`, { cause });
  }
};

test('up to six alterations of any kind are sound, say what they did and can be written, or are refused', () => {
  let [tried, done] = [0, 0];
  const kinds = new Set<string>();
  fc.assert(
    fc.property(pattern, fc.array(asking, { minLength: 1, maxLength: 6 }), fc.boolean(), (start, steps, isWritten) => {
      let now = start;
      const asked: Alteration[] = [];
      for (const ask of steps) {
        tried += 1;
        const step = attempted(now, ask);
        if (step === undefined) continue;
        done += 1;
        kinds.add(step.asked.kind);
        asked.push(step.asked);
        const read = check(start, now, step, asked);
        now = isWritten ? read : step.done.pattern;
      }
    }),
    { numRuns: 25 },
  );
  expect(done / tried).toBeGreaterThan(0.4);
  // Of nine; which they are is the seed's.
  expect(kinds.size).toBeGreaterThanOrEqual(6);
});
