import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { slideEdge, type EdgeEnds } from '../../src/alterations/edges/slide-edge.ts';
import { trueSeams } from '../../src/alterations/true-seams.ts';
import { StaywrightError } from '../../src/errors.ts';
import { lengthTo, locationAtLength } from '../../src/geometry/arc-length.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { walk } from '../../src/measure/walk.ts';
import { girthAt, levelCalled } from '../../src/pattern/girth-at.ts';
import type { Notch, Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { levelNames } from '../../src/pattern/look-up.ts';
import { carryNotch, settleMarks } from '../../src/pattern/settle-marks.ts';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { expectSound } from '../support/invariants.ts';
import { at, letOut } from '../support/moves.ts';
import { reread } from '../support/reread.ts';
import { allShapes, mirrored, patternOf, withNotches } from '../support/shaped-panels.ts';

const SEAMS = ['cf', 'front-side', 'side', 'cb'] as const;

/** Three panels of one shape, every other one mirrored, so that all seams match. */
const rowOf = (shape: () => Panel): Pattern =>
  patternOf(
    ...[0, 1, 2].map((place) => {
      const drawn = place === 1 ? mirrored(shape()) : shape();
      const edges = drawn.edges.map(({ text: _text, ...edge }, index) => ({
        ...edge,
        name: index === 1 ? SEAMS[place + 1]! : index === 3 ? SEAMS[place]! : edge.name,
      }));
      return withNotches({ ...drawn, name: `panel-${place + 1}`, edges });
    }),
  );

const hundredths = (most: number): fc.Arbitrary<number> =>
  fc.integer({ min: -100 * most, max: 100 * most }).map((value) => value / 100);

/** Lengths above and below the waist that differ by no more are left alone, so a whole seam may be twice that off. */
const LEFT_ALONE = 0.05;

interface Distortion {
  readonly ends: readonly EdgeEnds[];
  readonly notches: readonly number[];
  readonly letOut: number;
}

/** What makes a pattern not match: corners slid on one panel, notches moved, a seam let out below a level. */
const distortion: fc.Arbitrary<Distortion> = fc.record({
  ends: fc.array(fc.record({ front: hundredths(6), back: hundredths(6) }), { minLength: 6, maxLength: 6 }),
  notches: fc.array(hundredths(6), { minLength: 3, maxLength: 3 }),
  letOut: hundredths(8),
});

/** The notch moved along its edge. */
const slipped = (notch: Notch, panel: Panel, by: number): Notch => {
  const { path } = panel.edges.find(({ name }) => name === notch.edge)!;
  const { location } = nearestPoint(path, notch.at);
  return carryNotch(notch, path, location, path, locationAtLength(path, lengthTo(path, location) + by));
};

const distorted = (before: Pattern, by: Distortion): Pattern | undefined => {
  const panels: Panel[] = [];
  for (const [place, panel] of before.panels.entries()) {
    const top = slideEdge(panel, 'top', by.ends[2 * place]!);
    const bottom = typeof top === 'string' ? top : slideEdge(top, 'bottom', by.ends[2 * place + 1]!);
    if (typeof bottom === 'string') return undefined;
    const settled = settleMarks(panel, bottom);
    const notches = settled.notches.map((notch) =>
      notch.edge === 'top' || notch.edge === 'bottom' ? notch : slipped(notch, settled, by.notches[place]!),
    );
    panels.push({ ...settled, notches });
  }
  try {
    return moveSeams(
      { ...before, panels },
      letOut(['side'], by.letOut, { where: { kind: 'below', level: at('waist') } }),
    ).pattern;
  } catch (error) {
    if (error instanceof StaywrightError) return undefined;
    throw error;
  }
};

const girths = (pattern: Pattern): number[] =>
  levelNames(pattern).map((name) => girthAt(pattern, levelCalled(name)).girth);

test('whatever was distorted, truing leaves nothing to find, no width changed, and nothing for a second run', () => {
  let done = 0;
  fc.assert(
    fc.property(fc.constantFrom(...allShapes), distortion, (shape, by) => {
      const made = distorted(rowOf(shape), by);
      if (!made) return;
      const before = reread(made);
      const first = trued(before);
      if (!first) return;
      done += 1;
      expectSound(before, first);
      for (const [level, girth] of girths(first).entries()) expect(girth).toBeCloseTo(girths(before)[level]!, 4);
      const { lengths, notches, bends } = walk(first, [], 2 * LEFT_ALONE);
      expect([...lengths, ...notches, ...bends]).toEqual([]);
      const second = reread(first);
      expect(trued(second)).toBe(second);
      expect(writeSheet({ pattern: second, record: [] })).toBe(writeSheet({ pattern: first, record: [] }));
    }),
    { numRuns: 50 },
  );
  expect(done).toBeGreaterThan(25);
});

/** The trued pattern, or undefined where that was refused. */
const trued = (pattern: Pattern): Pattern | undefined => {
  try {
    return trueSeams(pattern, { seams: [], keep: [] }).pattern;
  } catch (error) {
    if (error instanceof StaywrightError) return undefined;
    throw error;
  }
};
