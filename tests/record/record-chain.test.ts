import { describe, expect, it } from 'vitest';
import type { Change } from '../../src/record/change.ts';
import { findVersion, versionWith } from '../../src/record/find-version.ts';
import { lastShared } from '../../src/record/last-shared.ts';
import { chainEnd, recordChain, stepsSince } from '../../src/record/record-chain.ts';
import { caught } from '../support/caught.ts';

/** A change from one version to another; versions are told apart by a letter that their hash is made of. */
const change = (before: string | null, after: string, step?: number): Change => ({
  command: `take-in --seam ${after}`,
  version: '0.1.0',
  ...(step === undefined ? {} : { step }),
  before: before === null ? null : before.repeat(64),
  after: after.repeat(64),
  girth_mm: {},
});

/** `null>a a>b b>b`: a record in short. */
const recordOf = (text: string): Change[] =>
  text.split(' ').map((part) => {
    const [before, after] = part.split('>');
    return change(before === 'null' ? null : before!, after!);
  });

const joints = (text: string): string =>
  recordChain(recordOf(text))
    .map(({ joint }) => joint[0])
    .join('');

const since = (text: string, place: number): string =>
  stepsSince(recordChain(recordOf(text)), place)
    .map(({ change: { before, after } }) => `${before?.[0] ?? null}>${after[0]}`)
    .join(' ');

describe('the chain of a record', () => {
  it.each([
    ['steps that follow each other', 'null>a a>b b>b b>c', 'ffff'],
    ['a sheet to begin with', 'a>b b>c', 'ff'],
    ['two people who each did one thing', 'null>a a>b a>c d>e', 'ffba'],
    ['two people who each did two', 'null>a a>b b>c a>d d>e', 'fffbb'],
    ['three people', 'null>a a>b a>c a>d e>f f>0', 'ffbbaf'],
    ['a sheet changed by hand between two steps', 'null>a b>c', 'fb'],
    ['a step and its opposite', 'null>a a>b b>a a>c', 'ffff'],
  ])('tells %s', (_, text, expected) => {
    const told = recordChain(recordOf(text)).map(({ joint }) => joint);
    expect(joints(text)).toBe(expected);
    expect(told.includes('broken')).toBe(text === 'null>a b>c');
  });

  it('has no end that is known where it ends in steps that were made apart', () => {
    expect(chainEnd(recordChain(recordOf('null>a a>b')))).toBe('b'.repeat(64));
    expect(chainEnd(recordChain(recordOf('null>a a>b a>c')))).toBeUndefined();
  });

  it.each([
    ['the original', 'null>a a>b', -1, 'null>a a>b'],
    ['the middle', 'null>a a>b b>c', 0, 'a>b b>c'],
    ['the end', 'null>a a>b', 1, ''],
    ['one of two that were made apart: the other is still to do', 'null>a a>b a>c', 2, 'a>b'],
    ['a later step of one person', 'null>a a>b b>c a>d d>e', 4, 'a>b b>c'],
    ['what both joined', 'null>a a>b a>c d>e e>f', 3, 'e>f'],
  ])('gives the steps since %s', (_, text, place, expected) => {
    expect(since(text, place)).toBe(expected);
  });

  it('numbers steps as they were numbered, or by their place', () => {
    const numbered = [change(null, 'a', 1), change('a', 'b', 2), change('a', 'c', 2), change('d', 'e', 3)];
    expect(recordChain(numbered).map(({ number }) => number)).toEqual([1, 2, 2, 3]);
    expect(recordChain(recordOf('null>a a>b')).map(({ number }) => number)).toEqual([1, 2]);
  });
});

describe('a version', () => {
  const chain = recordChain(recordOf('a>b b>c c>c c>d'));

  it('is found by the beginning of its hash, in capitals too', () => {
    expect(findVersion(chain, 'dddddd', '--since')).toBe(3);
    expect(findVersion(chain, 'D'.repeat(64), '--since')).toBe(3);
    expect(findVersion(chain, 'aaaaaa', '--since')).toBe(-1);
  });

  it('is the one before steps that left the shape alone, and the last of a shape that came twice', () => {
    expect(versionWith(chain, 'c'.repeat(64))).toBe(1);
    expect(versionWith(recordChain(recordOf('a>b b>a a>c')), 'a'.repeat(64))).toBe(1);
    expect(versionWith(recordChain(recordOf('null>a a>b a>a')), 'a'.repeat(64))).toBe(0);
    expect(versionWith(chain, 'e'.repeat(64))).toBeUndefined();
  });

  it('is refused where what was typed is short, fits two, or none', () => {
    expect(caught(() => findVersion(chain, 'ddddd', '--since'))).toMatchObject({ code: 'usage', where: '--since' });
    const alike = recordOf('a>b b>c').map((each, at) => (at === 0 ? each : { ...each, after: `${'b'.repeat(8)}c` }));
    const two = caught(() => findVersion(recordChain(alike), 'bbbbbbb', '--since'));
    expect(two.message).toBe('bbbbbbb begins more than one version');
    expect(two.hint).toContain('bbbbbbbbbbbb (step 1), bbbbbbbbc (step 2)');
    const none = caught(() => findVersion(chain, 'ddddde', '--since'));
    expect(none.message).toBe('no version of this record has the hash ddddde');
    expect(none.hint).toBe('near it are dddddddddddd (step 4), cccccccccccc (step 2), bbbbbbbbbbbb (step 1)');
  });
});

describe('the last version that two records share', () => {
  it.each([
    ['null>a a>b b>c', 'null>a a>b b>d', 1],
    ['null>a a>b', 'null>a a>b b>d', 1],
    ['null>a a>b b>d', 'null>a a>b', 1],
    ['a>b', 'a>c', -1],
    ['null>a', 'null>b', undefined],
    ['a>b', 'c>d', undefined],
  ])('of %s and %s is at %s', (one, other, place) => {
    expect(lastShared(recordOf(one), recordOf(other))).toBe(place);
  });
});
