import { expect, test } from 'vitest';
import {
  backEdge,
  bottomEdge,
  edgeNamed,
  frontEdge,
  levelNames,
  panelNamed,
  seamNamed,
  seamsOf,
  sidesOf,
  topEdge,
} from '../../src/pattern/look-up.ts';
import { levelY } from '../../src/pattern/level-y.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import { nearestName, suggestName } from '../../src/pattern/suggest.ts';
import { isClosed } from '../../src/geometry/path.ts';
import { caught } from '../support/caught.ts';
import { curvedPanel, halfPattern, straightPanel } from '../support/shaped-panels.ts';

test('seams run from centre front to centre back, the inner ones with two edges', () => {
  const seams = seamsOf(halfPattern());
  expect(seams.map(({ name }) => name)).toEqual(['cf', 'front-side', 'side', 'side-back', 'cb']);
  expect(seams.map(({ edges }) => edges.length)).toEqual([1, 2, 2, 2, 1]);
  expect(seams[1]!.edges.map(({ panel, side }) => `${panel.name} ${side}`)).toEqual(['front back', 'side-front front']);
});

test('the four edges are found by their places, wherever the outline starts', () => {
  const panel = straightPanel('p', ['a', 'b']);
  const turned = { ...panel, edges: [...panel.edges.slice(2), ...panel.edges.slice(0, 2)] };
  for (const one of [panel, turned]) {
    expect([topEdge, backEdge, bottomEdge, frontEdge].map((edgeOf) => edgeOf(one).name)).toEqual([
      'top',
      'b',
      'bottom',
      'a',
    ]);
  }
});

test('a panel without top and bottom has no seams and says what to do', () => {
  const panel = straightPanel();
  const bare = { ...panel, edges: panel.edges.map(({ path }, i) => ({ path, name: `edge-${i + 1}` })) };
  expect(sidesOf(bare)).toBeUndefined();
  expect(seamsOf({ ...halfPattern(), panels: [bare] })).toEqual([]);
  expect(caught(() => frontEdge(bare)).hint).toMatch('staywright label');
});

test('unknown names are refused with the nearest one', () => {
  expect(caught(() => panelNamed(halfPattern(), 'fornt')).hint).toBe('did you mean front?');
  expect(caught(() => seamNamed(halfPattern(), 'side-bakc')).hint).toBe('did you mean side-back?');
  expect(caught(() => edgeNamed(straightPanel(), 'botom')).hint).toBe('did you mean bottom?');
  expect(caught(() => levelY(straightPanel(), { name: 'wiast', offset: 0, text: 'wiast' })).hint).toBe(
    'did you mean waist?',
  );
  expect(caught(() => seamNamed(halfPattern(), 'zebra')).hint).toBe('there are: cf, front-side, side, side-back, cb');
});

test('nearest names allow two slips in five letters and one in a shorter word, swaps and capitals', () => {
  expect(nearestName('BUST', ['waist', 'bust'])).toBe('bust');
  expect(nearestName('waste', ['bust', 'waist'])).toBe('waist');
  expect(nearestName('hop', ['hip'])).toBe('hip');
  expect(nearestName('ab', ['xy'])).toBeUndefined();
  expect(nearestName('busk', ['back'])).toBeUndefined();
  expect(nearestName('a'.repeat(5000), ['a'])).toBeUndefined();
  expect(suggestName('x', [])).toBe('there are none');
});

test('levels are listed from the highest down', () => {
  const panel = straightPanel();
  const shuffled = { ...panel, levels: panel.levels.toReversed() };
  expect(levelNames({ ...halfPattern(), panels: [shuffled] })).toEqual([
    'bust',
    'underbust',
    'waist',
    'high-hip',
    'hip',
  ]);
});

test('an offset upwards gives a smaller y; top and bottom are where both seams still run', () => {
  const panel = curvedPanel();
  const y = (name: string, offset: number): number => levelY(panel, { name, offset, text: name });
  expect(y('waist', 50.8)).toBe(-50.8);
  expect(y('hip', -10)).toBe(160);
  expect(y('top', 0)).toBe(-190);
  expect(y('bottom', 5)).toBe(170);
});

test('the outline is closed', () => {
  expect(isClosed(outlineOf(curvedPanel()))).toBe(true);
});
