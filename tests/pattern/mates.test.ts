import { expect, test } from 'vitest';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { mateFindings } from '../../src/pattern/mates.ts';
import { seamsOf } from '../../src/pattern/look-up.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { takeIn } from '../support/moves.ts';
import { halfPattern, mirrored, panelOf, patternOf, run, swingingPanel } from '../support/shaped-panels.ts';

/** A straight panel between the given heights above and below the waist. */
const block = (name: string, seams: readonly [string, string], above: number, below: number): Panel =>
  panelOf({
    name,
    seams,
    top: run([0, -above], [80, -above]),
    back: run([80, -above], [80, below]),
    bottom: run([80, below], [0, below]),
    front: run([0, below], [0, -above]),
    levels: { waist: 0 },
  });

const pair = (above: number, below: number) =>
  patternOf(block('front', ['cf', 'side'], 200, 150), block('back', ['side', 'cb'], above, below));

test('mates of one length are nothing to report; neither are up to 1.5 mm', () => {
  expect(mateFindings(halfPattern())).toEqual([]);
  expect(mateFindings(pair(201.4, 150))).toEqual([]);
});

test('a longer edge is reported with its part of the seam, by how much, and on which panel', () => {
  expect(mateFindings(pair(203, 150))).toMatchObject([
    {
      kind: 'mates-differ',
      where: 'seam side, above the waist',
      message: 'the edge on back is 3.00 mm longer than the edge on front',
    },
  ]);
  expect(mateFindings(pair(200, 148))[0]).toMatchObject({ where: 'seam side, below the waist' });
});

test('what is longer above and shorter below is reported twice, though the whole is equal', () => {
  expect(mateFindings(pair(202, 148)).map(({ where }) => where)).toEqual([
    'seam side, above the waist',
    'seam side, below the waist',
  ]);
});

test('small differences on both sides of the waist that add up are reported for the whole seam', () => {
  expect(mateFindings(pair(201, 151))).toMatchObject([{ where: 'seam side' }]);
});

test('edges alike that cross the waist three times fit each other, whichever way they run', () => {
  const seam = patternOf(swingingPanel('front', ['cf', 'side']), mirrored(swingingPanel('back', ['side', 'cb'])));
  expect(seamsOf(seam).find(({ name }) => name === 'side')?.edges).toHaveLength(2);
  expect(mateFindings(seam)).toEqual([]);
});

test('what can be eased is told apart from what is too much for a boned seam', () => {
  expect(mateFindings(pair(206, 150))[0]!.cure).toMatch(
    /^ease the longer edge in while sewing, or make them equal: staywright true --seam \S+$/,
  );
  expect(mateFindings(pair(207, 150))[0]!.cure).toMatch(/too much to ease into a boned seam$/);
});

test('an alteration tells only of seams that it changed; the others it counts', () => {
  const heights = [200, 206, 206, 214];
  const blocks = heights.map((above, at) => block(`panel-${at}`, [`seam-${at}`, `seam-${at + 1}`], above, 150));
  const { findings } = moveSeams(patternOf(...blocks), takeIn(['seam-3'], 3));
  expect(findings.map(({ kind, where }) => `${kind}: ${where}`)).toEqual([
    'mates-differ: seam seam-3, above the waist',
    'mates-differ-as-before: seam-1',
  ]);
  expect(moveSeams(patternOf(...blocks), takeIn(['seam-2'], 3)).findings[0]).toMatchObject({
    weight: 'note',
    where: 'seam-1, seam-3',
    message: '2 seams have edges that differ as before',
  });
});
