import { expect, test } from 'vitest';
import { girth } from '../../src/measure/girth.ts';
import { levelCalled } from '../../src/pattern/girth-at.ts';
import { caught } from '../support/caught.ts';
import { straightPanel, patternOf, curvedPanel } from '../support/shaped-panels.ts';

const pattern = patternOf(straightPanel('front', ['cf', 'side']), straightPanel('back', ['side', 'cb']));

test('girth of pairs is twice the sum of the chords', () => {
  const [waist, bust] = girth(pattern, [
    levelCalled('waist'),
    { name: 'waist', offset: 100, text: 'waist+100mm' },
  ]).levels;
  expect(waist!.girth).toBeCloseTo(280, 9);
  expect(waist!.panels).toEqual([
    { panel: 'front', width: 70 },
    { panel: 'back', width: 70 },
  ]);
  expect(bust).toMatchObject({ level: 'waist+100mm' });
  expect(bust!.girth).toBeCloseTo(340, 9);
});

test('girth of single panels counts each once', () => {
  expect(girth({ ...pattern, pieces: 'single' }, [levelCalled('waist')]).levels[0]!.girth).toBeCloseTo(140, 9);
});

test('panels that still carry allowance are refused, with the command that removes it', () => {
  const cut = { ...pattern, panels: pattern.panels.map((panel) => ({ ...panel, line: 'cutting' as const })) };
  expect(caught(() => girth(cut, [levelCalled('waist')]))).toMatchObject({
    code: 'input',
    message: 'these panels still carry seam allowance',
    where: 'panel front, back',
    hint: expect.stringContaining('strip-allowance'),
  });
});

test('a level that a panel does not reach is refused with the panel named', () => {
  const above = { name: 'waist', offset: 195, text: 'waist+195mm' };
  expect(() => girth(patternOf(curvedPanel('front')), [above])).toThrow('waist+195mm');
});

test('top and bottom are measured on each panel where its own seams end', () => {
  const report = girth(pattern, [levelCalled('top'), levelCalled('bottom')]);
  expect(report.levels.map(({ girth: round }) => round)).toEqual([400, 440]);
});
