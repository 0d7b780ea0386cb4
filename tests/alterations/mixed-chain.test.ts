import { describe, expect, test, vi } from 'vitest';
import { setGusset } from '../../src/alterations/gusset.ts';
import { splice } from '../../src/alterations/splice.ts';
import { trueSeams } from '../../src/alterations/true-seams.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { panelSheets } from '../../src/svg/panel-sheets.ts';
import { altered } from '../support/any-alteration.ts';
import { expectSetIn } from '../support/gussets.ts';
import { expectSound } from '../support/invariants.ts';
import {
  afterAll,
  BODICE_CASE,
  chainOn,
  CURVED_CASE,
  expectBack,
  inARow,
  MIRRORED_CASE,
  SHAPES_CASE,
  SIDES_CASE,
  undoneAtOnce,
} from '../support/mixed-chain.ts';
import { at } from '../support/moves.ts';
import { reread } from '../support/reread.ts';

/** Each is fifty alterations, every one checked whole; on a busy machine that takes a while. */
vi.setConfig({ testTimeout: 120_000 });

const asItIs = <T>(pattern: T): T => pattern;

describe('25 alterations of every kind end where they began', () => {
  test.each([BODICE_CASE, SHAPES_CASE, SIDES_CASE])(
    'in a row and then their opposites, last first: $name',
    (chosen) => {
      expect.hasAssertions();
      expectBack(chosen.pattern, afterAll(chosen.pattern, inARow(chainOn(chosen)), asItIs));
    },
  );

  test.each([CURVED_CASE, MIRRORED_CASE])('each undone at once: $name', (chosen) => {
    expect.hasAssertions();
    expectBack(chosen.pattern, afterAll(chosen.pattern, undoneAtOnce(chainOn(chosen)), asItIs));
  });
});

/** The characters of every panel, without the head of its sheet, which counts the panels. */
const writtenPanels = (pattern: Pattern): Map<string, string> =>
  new Map(
    panelSheets({ pattern, record: [] }).map(({ name, text }) => [name, text.slice(text.indexOf('<g id="'))] as const),
  );

describe('what no opposite undoes, amid alterations of every kind', () => {
  const amid = chainOn(CURVED_CASE).reduce((now, each) => altered(now, each).pattern, CURVED_CASE.pattern);

  test('truing what was trued changes nothing', () => {
    const { pattern } = trueSeams(amid, { seams: [], keep: [] });
    expect(pattern).not.toBe(amid);
    expectSound(amid, pattern);
    expect(trueSeams(pattern, { seams: [], keep: [] }).pattern).toBe(pattern);
    const again = reread(pattern);
    expect(trueSeams(again, { seams: [], keep: [] }).pattern).toBe(again);
  });

  test.each(['above', 'below'] as const)('a splice %s the waist with itself is the very same pattern', (kind) => {
    expect(splice(amid, amid, { where: { kind, level: at('waist') } }, 'itself').pattern).toBe(amid);
  });

  test('a gusset in a slit leaves every other panel to the byte, and the edges of its own', () => {
    const { pattern } = setGusset(amid, {
      place: { kind: 'slit', panel: 'side-front', level: at('waist', -25), fraction: 0.5 },
      width: 40,
      sides: 'curved',
    });
    expectSetIn(amid, pattern);
    const [was, is] = [writtenPanels(amid), writtenPanels(pattern)];
    const same = [...was].filter(([name, text]) => is.get(name) === text).map(([name]) => name);
    expect([...is.keys()]).toEqual(['front', 'side-front', 'side-front-gusset', 'side-back', 'back']);
    expect(same).toEqual(['front', 'side-back', 'back']);
  });
});
