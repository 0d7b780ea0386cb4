import { describe, expect, it } from 'vitest';
import type { Change } from '../../src/record/change.ts';
import { findVersion, versionWith, whichVersion } from '../../src/record/find-version.ts';
import { chainEnd, recordChain, stepsSince } from '../../src/record/record-chain.ts';
import { sharedVersion } from '../../src/record/shared-version.ts';
import { versionsOf, type Version } from '../../src/record/versions-of.ts';
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

/** `null>a a>b b>b`: a record in short; `b>c:3` bears a number. */
const recordOf = (text: string): Change[] =>
  text.split(' ').map((part) => {
    const [before, after, step] = part.split(/[>:]/);
    return change(before === 'null' ? null : before!, after!, step === undefined ? undefined : Number(step));
  });

const joints = (text: string): string =>
  recordChain(recordOf(text))
    .map(({ joint }) => joint[0])
    .join('');

const versionsIn = (text: string, end?: string) => versionsOf(recordChain(recordOf(text)), end?.repeat(64));

/** `b step 1`: the hash of a version, in short, and which it is. */
const inShort = (version: Version | undefined): string | undefined =>
  version === undefined ? undefined : `${version.hash?.[0] ?? null} ${whichVersion(version)}`;

const since = (text: string, hash: string): string =>
  stepsSince(recordChain(recordOf(text)), versionWith(versionsIn(text, 'f'), hash.repeat(64))!)
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
    ['the original', 'a>b b>c', 'a', 'a>b b>c'],
    ['the middle', 'null>a a>b b>c', 'a', 'a>b b>c'],
    ['the end', 'null>a a>b', 'b', ''],
    ['one of two that were made apart: the other is still to do', 'null>a a>b a>c', 'c', 'a>b'],
    ['a later step of one person', 'null>a a>b b>c a>d d>e', 'e', 'a>b b>c'],
    ['what followed the joining of both', 'null>a a>b a>c d>e e>f', 'e', 'e>f'],
    ['what both gave together', 'null>a a>b a>c d>e e>f', 'd', 'd>e e>f'],
    ['what both gave together, at the end', 'null>a a>b a>c', 'f', ''],
    ['what was changed by hand', 'null>a a>b c>d', 'c', 'c>d'],
  ])('gives the steps since %s', (_, text, hash, expected) => {
    expect(since(text, hash)).toBe(expected);
  });

  it('numbers steps as they were numbered, or by their place', () => {
    const numbered = [change(null, 'a', 1), change('a', 'b', 2), change('a', 'c', 2), change('d', 'e', 3)];
    expect(recordChain(numbered).map(({ number }) => number)).toEqual([1, 2, 2, 3]);
    expect(recordChain(recordOf('null>a a>b')).map(({ number }) => number)).toEqual([1, 2]);
  });
});

describe('a version', () => {
  const versions = versionsIn('a>b b>c c>c c>d');

  it('is found by the beginning of its hash, in capitals too', () => {
    expect(inShort(findVersion(versions, 'dddddd', '--since'))).toBe('d step 4');
    expect(inShort(findVersion(versions, 'D'.repeat(64), '--since'))).toBe('d step 4');
    expect(inShort(findVersion(versions, 'aaaaaa', '--since'))).toBe('a the original');
  });

  it('is the one before steps that left the shape alone, and the last of a shape that came twice', () => {
    expect(inShort(versionWith(versions, 'c'.repeat(64)))).toBe('c step 2');
    expect(inShort(versionWith(versionsIn('a>b b>a a>c'), 'a'.repeat(64)))).toBe('a step 2');
    expect(inShort(versionWith(versionsIn('null>a a>b a>a'), 'a'.repeat(64)))).toBe('a step 1');
    expect(inShort(versionWith(versionsIn('null>a a>b a>c d>d'), 'd'.repeat(64)))).toBe('d joined before step 4');
    expect(versionWith(versions, 'e'.repeat(64))).toBeUndefined();
  });

  it('is refused where what was typed is short, fits two, or none', () => {
    expect(caught(() => findVersion(versions, 'ddddd', '--since'))).toMatchObject({ code: 'usage', where: '--since' });
    const alike = recordOf('a>b b>c').map((each, at) => (at === 0 ? each : { ...each, after: `${'b'.repeat(8)}c` }));
    const two = caught(() => findVersion(versionsOf(recordChain(alike)), 'bbbbbbb', '--since'));
    expect(two.message).toBe('bbbbbbb begins more than one version');
    expect(two.hint).toContain('bbbbbbbbbbbb (step 1), bbbbbbbbc (step 2)');
    const none = caught(() => findVersion(versions, 'ddddde', '--since'));
    expect(none.message).toBe('no version of this record begins with ddddde');
    expect(none.hint!.split('\n').at(-1)).toBe(`  dddddddddddd  step 4: take-in --seam d`);
  });
});

describe('the last version that two records share', () => {
  const MERGED = 'null>a:1 a>b:2 a>c:2 c>d:3 e>f:4';

  it.each<[string, string, string | undefined, string?]>([
    ['null>a a>b b>c', 'null>a a>b b>d', 'b step 2'],
    ['null>a a>b', 'null>a a>b b>d', 'b step 2'],
    ['null>a a>b b>d', 'null>a a>b', 'b step 2'],
    ['a>b', 'a>c', 'a the original'],
    ['null>a', 'null>b', undefined],
    ['a>b', 'c>d', undefined],
    // What each of two people had before git joined them, what it made of both, and what somebody did with that.
    [MERGED, 'null>a:1 a>b:2', 'b step 2'],
    [MERGED, 'null>a:1 a>c:2 c>d:3 d>0:4', 'd step 3'],
    [MERGED, 'null>a:1 a>b:2 a>c:2 c>d:3', 'e joined before step 4', 'e'],
    [MERGED, 'null>a:1 a>b:2 a>c:2 c>d:3 e>0:4', 'e joined before step 4'],
    ['null>a a>b a>c', 'null>a a>b a>c', 'e joined last', 'e'],
    // A sheet that was changed by hand, and the same before.
    ['null>a b>c', 'null>a', 'b changed by other means before step 2', 'b'],
    ['null>a b>c', 'null>a', 'a step 1', 'a'],
  ])('of %s and %s is %s', (one, other, version, hash) => {
    const chain = recordChain(recordOf(one));
    const versions = versionsOf(chain, hash?.repeat(64));
    expect(inShort(sharedVersion(versions, chain, recordOf(other), hash?.repeat(64)))).toBe(version);
  });
});
