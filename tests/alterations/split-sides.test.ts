import { describe, expect, it } from 'vitest';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { splitSides } from '../../src/alterations/split-sides.ts';
import { girthAt, levelCalled } from '../../src/pattern/girth-at.ts';
import { levelNames, sewnSeams } from '../../src/pattern/look-up.ts';
import { mirrorPanel } from '../../src/pattern/mirror-panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { readSvg } from '../../src/svg/read-svg.ts';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { caught } from '../support/caught.ts';
import { expectSoundPanel } from '../support/invariants.ts';
import { letOut } from '../support/moves.ts';
import { allShapes, halfPattern, patternOf, withNotches } from '../support/shaped-panels.ts';

const girths = (pattern: Pattern): number[] =>
  levelNames(pattern).map((level) => girthAt(pattern, levelCalled(level)).girth);

/** The pattern as if its edges had been drawn by a command: with no characters of their own. */
const unwritten = (pattern: Pattern): Pattern => ({
  ...pattern,
  panels: pattern.panels.map((panel) => ({
    ...panel,
    edges: panel.edges.map(({ text: _text, ...edge }) => edge),
  })),
});

const expectSameGirths = (one: Pattern, other: Pattern): void => {
  const [a, b] = [girths(one), girths(other)];
  expect(a).toHaveLength(b.length);
  for (const [at, girth] of a.entries()) expect(girth).toBeCloseTo(b[at]!, 9);
};

const readBack = (text: string) => {
  const reading = readSvg(text, 'split.svg');
  if (reading.kind !== 'sheet') throw new Error('is no sheet');
  return reading.sheet;
};

/** Every point of the edges of a written panel, its x without its sign. */
const numbers = (part: string): string[] =>
  [...part.matchAll(/data-edge="([^"]+)" d="([^"]+)"/g)].flatMap(([, name, d]) =>
    [...d!.matchAll(/(-?[\d.]+),(-?[\d.]+)/g)].map(([, x, y]) => `${name} ${Math.abs(Number(x))} ${y}`),
  );

describe('splitting pairs into left and right', () => {
  it('makes two panels of each, the left ones first, from centre front to centre back', () => {
    const { pattern } = splitSides(halfPattern());
    expect(pattern.pieces).toBe('single');
    expect(pattern.panels.map(({ name }) => name)).toEqual([
      'front-left',
      'side-front-left',
      'side-back-left',
      'back-left',
      'front-right',
      'side-front-right',
      'side-back-right',
      'back-right',
    ]);
  });

  it.each(allShapes.map((make) => [make().name, make] as const))('changes no girth and no shape: %s', (_, make) => {
    const before = patternOf(withNotches(make()));
    const { pattern, change } = splitSides(before);
    expectSameGirths(pattern, before);
    for (const { before: was, after } of change.girth) expect(after).toBeCloseTo(was, 9);
    for (const panel of pattern.panels) {
      expectSoundPanel(panel);
      expect(panel.edges.map(({ path }) => path)).toEqual(before.panels[0]!.edges.map(({ path }) => path));
    }
  });

  it('leaves the left edges their characters, and gives the right ones none to keep', () => {
    const { pattern } = splitSides(halfPattern());
    const texts = pattern.panels.map(({ edges }) => edges.every(({ text }) => text !== undefined));
    expect(texts).toEqual([true, true, true, true, false, false, false, false]);
  });

  it('draws the right panel as the exact mirror image of the left, to the last decimal', () => {
    const uneven = moveSeams(halfPattern(), letOut(['side', 'cb'], 7.7)).pattern;
    const text = writeSheet({ pattern: unwritten(splitSides(uneven).pattern), record: [] });
    const [, leftOnly = '', rightOnly = ''] = text.split(/<g id="back-/);
    expect(new Set(numbers(rightOnly.split('</g>')[0]!))).toEqual(new Set(numbers(leftOnly.split('</g>')[0]!)));
  });

  it('is read back as it was, and written again with the same bytes', () => {
    const pattern = unwritten(
      splitSides(patternOf(...allShapes.map((make, i) => withNotches({ ...make(), name: `p${i}` })))).pattern,
    );
    const text = writeSheet({ pattern, record: [] });
    const again = readBack(text);
    expect(again.pattern.panels.map(({ side }) => side)).toEqual(pattern.panels.map(({ side }) => side));
    expect(again.pattern.panels.map(({ edges }) => edges.map(({ name }) => name))).toEqual(
      pattern.panels.map(({ edges }) => edges.map(({ name }) => name)),
    );
    expect(writeSheet(again)).toBe(text);
  });

  it('mirrors artwork with the right panel', () => {
    const panel = { ...allShapes[0]!(), art: '<circle cx="9" cy="9" r="1"/>' };
    const [left, right] = splitSides(patternOf(panel)).pattern.panels;
    expect(left!.art).toBe(panel.art);
    expect(right!.art).toBe('<g transform="scale(-1,1)"><circle cx="9" cy="9" r="1"/></g>');
  });

  it('keeps one name for the seams of both sides, of which each is sewn by itself', () => {
    const { pattern } = splitSides(halfPattern());
    expect(sewnSeams(pattern).map(({ name, side, edges }) => `${name} ${side} ${edges.length}`)).toEqual(
      ['left', 'right'].flatMap((side) => [
        `cf ${side} 1`,
        `front-side ${side} 2`,
        `side ${side} 2`,
        `side-back ${side} 2`,
        `cb ${side} 1`,
      ]),
    );
  });

  it('lets a seam be moved on both sides at once, as in the half pattern', () => {
    const before = halfPattern();
    const paired = moveSeams(before, letOut(['side'], 6)).pattern;
    const single = moveSeams(splitSides(before).pattern, letOut(['side'], 6)).pattern;
    expectSameGirths(single, paired);
    expect(single.panels.filter(({ side }) => side === 'right').map(({ edges }) => edges[0]!.path)).toEqual(
      paired.panels.map(({ edges }) => edges[0]!.path),
    );
  });

  it('refuses panels that are drawn singly', () => {
    const error = caught(() => splitSides(splitSides(halfPattern()).pattern));
    expect(error).toMatchObject({ code: 'usage', message: 'its panels are drawn singly already, not in pairs' });
  });

  it('holds right panels in the frame of the left: mirrored back they are alike', () => {
    const [left, right] = splitSides(patternOf(allShapes[1]!())).pattern.panels;
    expect(mirrorPanel(mirrorPanel(right!)).levels).toEqual(left!.levels);
  });
});
