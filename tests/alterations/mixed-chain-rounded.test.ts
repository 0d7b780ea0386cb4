import { describe, expect, test, vi } from 'vitest';
import type { Pattern } from '../../src/pattern/pattern.ts';
import {
  afterAll,
  BODICE_CASE,
  chainOn,
  CURVED_CASE,
  expectBack,
  inARow,
  MIRRORED_CASE,
  SHAPES_CASE,
  undoneAtOnce,
  type ChainCase,
} from '../support/mixed-chain.ts';
import { reread } from '../support/reread.ts';

/** Each is fifty alterations, every one checked whole; on a busy machine that takes a while. */
vi.setConfig({ testTimeout: 120_000 });

/** As through a pipe of commands: the sheet is written with 3 decimals and read again after every one. */
const startOf = ({ pattern }: ChainCase): Pattern => reread(pattern);

describe('25 alterations of every kind, the sheet written and read again after each, end where they began', () => {
  test.each([CURVED_CASE, MIRRORED_CASE])('in a row and then their opposites, last first: $name', (chosen) => {
    expect.hasAssertions();
    const start = startOf(chosen);
    expectBack(start, afterAll(start, inARow(chainOn(chosen)), reread));
  });

  test.each([BODICE_CASE, SHAPES_CASE])('each undone at once: $name', (chosen) => {
    expect.hasAssertions();
    const start = startOf(chosen);
    expectBack(start, afterAll(start, undoneAtOnce(chainOn(chosen)), reread));
  });
});
