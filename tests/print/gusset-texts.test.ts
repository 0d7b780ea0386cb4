import { expect, test } from 'vitest';
import { setGusset } from '../../src/alterations/gusset.ts';
import { flattenPath } from '../../src/geometry/flatten.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import { panelTexts } from '../../src/print/panel-texts.ts';
import { cornersOfSpot, isWithin } from '../../src/print/text-spot.ts';
import { gussetsOf, intoSeam } from '../support/gussets.ts';
import { halfPattern } from '../support/half-pattern.ts';
import { at } from '../support/moves.ts';

test('a narrow gusset bears its name and how often it is cut inside its outline, and no level that finds no room', () => {
  const place = { kind: 'seam', seam: 'side', below: at('bust') } as const;
  const { pattern } = setGusset(halfPattern(), { ...intoSeam(30, { name: 'underarm-front-gusset' }), place });
  const [panel] = gussetsOf(pattern);
  const outline = flattenPath(outlineOf(panel!), 0.1);
  const { from, to } = panel!.grain!;
  const texts = panelTexts({
    pattern,
    panel: panel!,
    outline,
    lines: [[from, to]],
    joints: undefined,
    hash: 'c0ffee5ad1',
  });
  const title = texts[0]!;
  expect(title.words.map(({ text }) => text)).toEqual(['underarm-front-gusset', 'cut 2, mirrored']);
  for (const { words, spot } of [
    title,
    ...texts.filter((block) => panel!.levels.some(({ name }) => name === block.words[0]!.text)),
  ])
    for (const corner of cornersOfSpot(spot)) expect(isWithin(outline, corner), `${words[0]!.text} inside`).toBe(true);
});
