import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hashGeometry } from '../../src/record/hash-geometry.ts';
import { readSvg } from '../../src/svg/read-svg.ts';
import type { Sheet } from '../../src/svg/sheet.ts';
import type { Finished } from '../support/run-main.ts';
import { runScript } from '../support/run-script.ts';
import { farthestApart } from '../support/shaped-panels.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

let folder = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'staywright-splice-'));
  cpSync(INPUTS, folder, { recursive: true });
  // Every line of the larger one is let out by 5 mm.
  await ran('let-out net.svg --seam cb,side-back,front-side --amount 5mm -q -o larger.svg');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs pipes of commands, each line one, in a folder with `net.svg` and `larger.svg`. */
const ran = (...lines: readonly string[]): Promise<Finished> =>
  runScript(lines.map((line) => `staywright ${line}`).join('\n'), { cwd: folder });

const written = (file: string): string => readFileSync(join(folder, file), 'utf8');

const sheetIn = (file: string): Sheet => {
  const reading = readSvg(written(file), file);
  if (reading.kind !== 'sheet') throw new Error('not a sheet');
  return reading.sheet;
};

describe('splice', () => {
  it('takes the other first, from a file, a folder or standard input, and writes the same', async () => {
    const { code } = await ran(
      'splice larger.svg net.svg --above waist -q -o one.svg',
      'splice larger.svg --above waist -q < net.svg > two.svg',
      'splice - net.svg --above waist -q < larger.svg > three.svg',
      'let-out net.svg --seam cb,side-back,front-side --amount 5mm -q -o larger/',
      'splice larger/ net.svg --above waist -q -o four.svg',
    );
    expect(code).toBe(0);
    for (const file of ['two.svg', 'three.svg', 'four.svg']) expect(written(file)).toBe(written('one.svg'));
  });

  it('keeps both parents in the record by their hash, no file by its name, and commands after it keep that', async () => {
    await ran(
      'splice larger.svg net.svg --blend 1in --above waist -q | staywright take-in --seam cb --amount 1mm -q -o out.svg',
    );
    const { record } = sheetIn('out.svg');
    const spliced = record.at(-2)!;
    expect(spliced.command).toBe('splice --above waist --blend 1in');
    expect(spliced.before).toBe(hashGeometry(sheetIn('net.svg').pattern));
    expect(spliced.other).toBe(hashGeometry(sheetIn('larger.svg').pattern));
    expect(record.at(-1)).not.toHaveProperty('other');
    expect(record.at(-1)!.before).toBe(spliced.after);
  });

  it('of a sheet with itself is that sheet, byte for byte', async () => {
    const { stdout } = await ran('splice larger.svg larger.svg --above waist -q');
    expect(stdout).toBe(written('larger.svg'));
  });

  it('measures at each level what it says, once written and read again', async () => {
    const { stdout } = await ran(
      'splice larger.svg net.svg --size bust=OTHER --size waist=This -q | staywright girth --json',
    );
    const { levels } = JSON.parse(stdout) as { levels: readonly { level: string; girth_mm: number }[] };
    const girths = Object.fromEntries(levels.map(({ level, girth_mm }) => [level, girth_mm]));
    // Five lines on each half were let out by 5 mm: 50 mm round the body.
    expect(girths['bust']).toBeCloseTo(452.42 + 50, 1);
    expect(girths['waist']).toBeCloseTo(320.6, 1);
    expect(girths['hip']).toBeCloseTo(479.9, 1);
  });

  it('draws the cutting line again', async () => {
    await ran(
      'add-allowance net.svg --allowance 12mm -q | staywright splice larger.svg --above waist -q -o first-cut.svg',
      'splice larger.svg net.svg --above waist -q | staywright add-allowance --allowance 12mm -q -o then-cut.svg',
    );
    const [one, other] = ['first-cut.svg', 'then-cut.svg'].map((file) => sheetIn(file).pattern.panels);
    expect(one!.map(({ edges }) => edges)).toEqual(other!.map(({ edges }) => edges));
    const apart = one!.map(({ cutting }, i) => farthestApart(cutting!, other![i]!.cutting!));
    expect(Math.max(...apart)).toBeLessThan(0.02);
  });

  it.each([
    ['--above waist < net.svg', 'which other sheet?'],
    ['- --above waist < net.svg', 'standard input holds one sheet, not two'],
    ['- - --above waist < net.svg', 'standard input holds one sheet, not two'],
    ['larger.svg net.svg more.svg --above waist', 'more.svg: one sheet at a time, after the other'],
    ['large.svg net.svg --above waist', 'large.svg: there is no such file\n  hint: did you mean larger.svg?'],
    ['drawn.svg net.svg --above waist', 'drawn: is a plain drawing, not a sheet yet'],
    ['larger.svg net.svg', '--above: which part of the other?'],
    ['larger.svg net.svg --above waist --size hip=other', '--size: cannot go with --above'],
    ['larger.svg net.svg --size hip=other --blend 2in', '--blend: sizes are blended from level to level'],
    ['larger.svg net.svg --size hip=that', "--size: 'that' is not this or other"],
    ['larger.svg net.svg --size hip=this', '--size: takes nothing from the other'],
    ['larger.svg net.svg --above waist --blend 0mm', '--blend: must be 5 mm or longer, to be a fair line'],
    ['larger.svg net.svg --above waist -o larger.svg', 'larger.svg: is the input, which is never overwritten'],
    ['larger.svg net.svg --above waist -o net.svg', 'net.svg: is the input, which is never overwritten'],
  ])('splice %s is refused', async (words, says) => {
    const { code, stderr } = await ran(`splice ${words}`);
    expect(stderr).toContain(says);
    expect(code).toBe(2);
  });

  it('reads records that never knew of another parent, and none with one that is no hash', async () => {
    writeFileSync(join(folder, 'bad.svg'), written('net.svg').replace('"after":', '"other":7,"after":'));
    const { code, stderr } = await ran('girth net.svg -q', 'girth bad.svg');
    expect(code).toBe(2);
    expect(stderr).toContain('line 1 of the record of changes cannot be read');
  });
});
