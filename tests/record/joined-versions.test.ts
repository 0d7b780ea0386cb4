import { describe, expect, it } from 'vitest';
import type { Change } from '../../src/record/change.ts';
import { changedPanels } from '../../src/record/changed-panels.ts';
import { joinedVersions } from '../../src/record/joined-versions.ts';
import { nextStep } from '../../src/record/step-of.ts';
import { boxPattern } from '../support/box-pattern.ts';

const change = (command: string, step: number | undefined, before: string | null, after: string): Change => ({
  command,
  version: '0.1.0',
  ...(step === undefined ? {} : { step }),
  before,
  after,
  girth_mm: {},
});

const namesIn = (record: readonly Change[]) =>
  joinedVersions(record).map(({ step, versions }) => [step, ...versions.map((all) => all.map((one) => one.command))]);

describe('versions that were joined', () => {
  const label = change('label', 1, null, 'a');

  it('are none in a plain chain, numbered or not', () => {
    expect(namesIn([])).toEqual([]);
    expect(namesIn([label, change('x', 2, 'a', 'b'), change('y', 3, 'b', 'a'), change('z', 4, 'a', 'b')])).toEqual([]);
    expect(namesIn([change('label', undefined, null, 'a'), change('x', undefined, 'a', 'a')])).toEqual([]);
  });

  it('are told with all that each did, as far as their hashes lead', () => {
    const record = [
      label,
      change('p', 2, 'a', 'p1'),
      change('q', 2, 'a', 'q1'),
      change('p again', 3, 'p1', 'p2'),
      change('q again', 3, 'q1', 'q2'),
      change('p a third time', 4, 'p2', 'p3'),
      change('after both', 5, 'p3 and q2', 'z'),
    ];
    expect(namesIn(record)).toEqual([[2, ['p', 'p again', 'p a third time'], ['q', 'q again']]]);
    expect(nextStep(record)).toBe(6);
  });

  it('are told where a version parts again', () => {
    const record = [
      label,
      change('p', 2, 'a', 'p1'),
      change('q', 2, 'a', 'q1'),
      change('r', 3, 'p1', 'r1'),
      change('s', 3, 'p1', 's1'),
    ];
    expect(namesIn(record)).toEqual([
      [2, ['p'], ['q']],
      [3, ['r'], ['s']],
    ]);
  });

  it('follow on from changes without a number', () => {
    const old = [change('label', undefined, null, 'a'), change('x', undefined, 'a', 'b')];
    expect(nextStep(old)).toBe(3);
    expect(namesIn([...old, change('p', 3, 'b', 'c'), change('q', 3, 'b', 'd')])).toEqual([[3, ['p'], ['q']]]);
  });
});

describe('panels that a command changed', () => {
  const pattern = boxPattern(3);
  const [first, second, third] = pattern.panels;
  const lower = (panel: typeof first) => ({
    ...panel!,
    levels: panel!.levels.map((level) => ({ ...level, y: level.y + 1 })),
  });

  const changed = (...panels: (typeof pattern.panels)[number][]) => changedPanels(pattern, { ...pattern, panels });

  it('are those whose geometry differs, that are new, and that went', () => {
    const named = { ...second!, name: 'new' };
    expect(changed(first!, lower(second), third!)).toEqual(['panel-2']);
    expect(changed(first!, second!, named, third!)).toEqual(['new']);
    expect(changed(first!, lower(third))).toEqual(['panel-3', 'panel-2']);
    expect(changed(first!, { ...second!, art: '<text>x</text>' }, lower(third))).toEqual(['panel-3']);
  });

  it('are not named where all of them changed, or none', () => {
    expect(changedPanels(pattern, pattern)).toBeUndefined();
    expect(changedPanels(pattern, { ...pattern, panels: pattern.panels.map(lower) })).toBeUndefined();
  });
});
