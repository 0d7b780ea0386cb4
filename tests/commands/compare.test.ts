import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Finished } from '../support/run-main.ts';
import { runScript } from '../support/run-script.ts';
import { runShell } from '../support/run-staywright.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

let folder = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'staywright-compare-'));
  cpSync(INPUTS, folder, { recursive: true });
  await ran('take-in net.svg --seam cb --above waist --amount 0.5in -q -o v2.svg');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs pipes of commands, each line one, in a folder with `net.svg` and its next version, `v2.svg`. */
const ran = (...lines: readonly string[]): Promise<Finished> =>
  runScript(lines.map((line) => `staywright ${line}`).join('\n'), { cwd: folder });

interface Json {
  readonly same: boolean;
  readonly laid_by: string;
  readonly before: { readonly only_in_its_record: readonly string[] };
  readonly after: { readonly only_in_its_record: readonly string[] };
  readonly findings: readonly { readonly kind: string }[];
  readonly panels: readonly {
    readonly panel: string;
    readonly edges: readonly {
      readonly edge: string;
      readonly found: string;
      readonly most_mm: number;
      readonly levels?: readonly { readonly level: string; readonly outwards_mm: number }[];
    }[];
  }[];
  readonly levels: readonly { readonly level: string; readonly girth_mm: { readonly change: number } }[];
}

const compared = async (words: string): Promise<Json> => JSON.parse((await ran(`${words} --json`)).stdout) as Json;

const edgeIn = ({ panels }: Json, panel: string, edge: string) =>
  panels.find((one) => one.panel === panel)!.edges.find((one) => one.edge === edge)!;

describe('compare', () => {
  it('tells no move along a level that is greater than the greatest of its row', async () => {
    await ran('let-out net.svg --seam side-back --below waist --amount 0.5in -q -o flared.svg');
    const { stdout } = await ran('compare net.svg flared.svg');
    const row = /^side-back on side +0 +0 +\+12\.70 +(\d+\.\d\d) +at (\S+)$/m.exec(stdout);
    expect(row?.slice(1)).toEqual(['12.70', 'hip']);
  });

  it('keeps notches that moved alike on left and right within 80 columns', async () => {
    const text = readFileSync(join(folder, 'net.svg'), 'utf8');
    writeFileSync(
      join(folder, 'long.svg'),
      text.replaceAll('"front"', '"panel-at-the-front"').replaceAll('"side"', '"panel-at-the-side"'),
    );
    await ran('split-sides long.svg -q -o sides.svg', 'raise-line sides.svg --level waist --amount 0.5in -q -o up.svg');
    const lines = (await ran('compare sides.svg up.svg')).stdout.split('\n');
    const notches = lines.slice(lines.findIndex((line) => line.startsWith('Notches along')));
    expect(notches.length).toBeGreaterThan(5);
    expect(lines.filter((line) => line.length > 80 && !line.startsWith('They differ'))).toEqual([]);
  });

  it('refuses a picture that it drew itself, and says what to give', async () => {
    await ran('picture net.svg -q -o wall.svg');
    const { code, stderr } = await ran('compare net.svg wall.svg');
    expect([code, stderr]).toEqual([
      2,
      'staywright compare: wall.svg: is a picture that staywright drew, no sheet\n' +
        '  hint: give the sheet that it was drawn from\n',
    ]);
  });

  it('says what taking in half an inch above the waist did, and ends with 1', async () => {
    const { code, stdout, stderr } = await ran('compare net.svg v2.svg');
    expect(code).toBe(1);
    expect(stderr).toBe('');
    expect(stdout).toContain('done since:\n  take-in --seam cb --amount 0.5in --above waist\n');
    expect(stdout).toMatch(/^cb on back +-12\.70 +0 +0 +12\.\d\d/m);
    expect(stdout).toContain('Unchanged: front; side; back (bottom, side-back).');
    expect(stdout.trimEnd().split('\n').at(-1)).toBe(
      'They differ: cb on back comes in by up to 12.70 mm; round the body bust -25.40 mm, waist 0.00 mm.',
    );
  });

  it('keeps its lines within 80 columns, but for the last, also in inches and with both sides', async () => {
    const { stdout } = await ran(
      'split-sides net.svg -q | staywright take-in --side left --seam side-back --amount 3/8in -q -o left.svg',
    ).then(() => ran('compare net.svg left.svg --units in'));
    const lines = stdout.trimEnd().split('\n').slice(0, -1);
    expect(lines.filter((line) => line.length > 80)).toEqual([]);
    expect(lines.length).toBeGreaterThan(20);
  });

  it('gives every figure as JSON, in mm', async () => {
    const found = await compared('compare net.svg v2.svg --units in');
    expect(found).toMatchObject({ same: false, laid_by: 'own coordinates', findings: [] });
    const moves = edgeIn(found, 'back', 'cb').levels!.map(({ level, outwards_mm }) => [level, outwards_mm]);
    expect(moves).toEqual([
      ['bust', -12.7],
      ['waist', 0],
      ['hip', 0],
    ]);
    expect(edgeIn(found, 'back', 'top').found).toBe('other ends');
    expect(found.levels.map(({ level, girth_mm }) => [level, girth_mm.change])).toEqual([
      ['bust', expect.closeTo(-25.4, 2)],
      ['waist', 0],
      ['hip', 0],
    ]);
  });

  it('turns every sign the other way round, and says which commands only the first has', async () => {
    const found = await compared('compare v2.svg net.svg');
    expect(edgeIn(found, 'back', 'cb').most_mm).toBe(12.7);
    expect(found.before.only_in_its_record).toEqual(['take-in --seam cb --amount 0.5in --above waist']);
    expect(found.after.only_in_its_record).toEqual([]);
  });

  it('takes back what was done and finds the same, within 0.01 mm', async () => {
    const { stdout, code } = await ran(
      'let-out v2.svg --seam cb --above waist --amount 0.5in -q | staywright compare net.svg -',
    );
    expect(stdout.split('\n').at(-2)).toMatch(/^The same: /);
    expect(code).toBe(0);
  });

  it('reads either from standard input', async () => {
    const file = (await ran('compare net.svg v2.svg')).stdout;
    expect((await ran('compare net.svg < v2.svg')).stdout).toBe(file);
    expect((await ran('compare - v2.svg < net.svg')).stdout).toBe(file);
  });

  it('lays two patterns of one shape that never met on each other by their waists', async () => {
    const relabelled = (await ran('compare net.svg v2.svg --json')).stdout;
    expect(relabelled).toContain('own coordinates');
    await ran(
      'label drawn.svg --line stitching --panels front,side,back --seams cf,front-side,side-back,cb -q -o other.svg',
    );
    const found = await compared('compare v2.svg other.svg');
    expect(found.laid_by).toBe('waist');
    expect(found.same).toBe(false);
  });

  it('splits a half pattern to compare it with left and right, and can look at one side', async () => {
    await ran(
      'split-sides net.svg -q -o split.svg',
      'let-out split.svg --side right --seam cb --amount 4mm -q -o both.svg',
    );
    const split = await ran('compare net.svg split.svg');
    expect(split.code).toBe(0);
    expect(split.stderr).toContain('note: net.svg: its panels are pairs');
    const found = await compared('compare net.svg both.svg');
    expect(found.findings.map(({ kind }) => kind)).toEqual(['split-to-compare']);
    expect(edgeIn(found, 'back-right', 'cb').most_mm).toBeCloseTo(4, 2);
    expect(edgeIn(found, 'back-left', 'cb').found).toBe('same');
    expect((await ran('compare net.svg both.svg --side left')).code).toBe(0);
    expect((await ran('compare net.svg both.svg --side right')).stdout).toContain('Round the right half:');
  });

  it.each([
    ['compare net.svg cut.svg', 'strip-allowance cut.svg'],
    ['compare net.svg gone.svg', 'gone.svg: there is no such file'],
    ['compare net.svg drawn.svg', 'drawn: is a plain drawing, not a sheet yet'],
    ['compare < net.svg', 'which other sheet?'],
    ['compare - < net.svg', 'standard input holds one sheet, not two'],
    ['compare net.svg v2.svg larger.svg', 'one sheet at a time'],
    ['compare net.svg v2.svg --side left', 'are not split into left and right'],
  ])('%s is refused', async (words, says) => {
    const { code, stdout, stderr } = await ran(words);
    expect(stderr).toContain(says);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
  });

  it('refuses other panels, naming those that only one has', async () => {
    await ran(
      'label drawn.svg --line stitching --panels front,middle,back --seams cf,front-side,side-back,cb -q -o other-names.svg',
    );
    const { code, stderr } = await ran('compare net.svg other-names.svg');
    expect(code).toBe(2);
    expect(stderr).toContain('only net.svg has panel side; only other-names.svg has panel middle');
  });

  it('draws both over each other beside its report, as SVG, PNG or PDF by the ending', async () => {
    for (const ending of ['svg', 'png', 'pdf']) {
      const { code, stdout, stderr } = await ran(`compare net.svg v2.svg -o overlay.${ending}`);
      expect({ code, stderr }).toEqual({ code: 1, stderr: `wrote overlay.${ending}\n` });
      expect(stdout).toMatch(/^They differ: /m);
    }
    const svg = readFileSync(join(folder, 'overlay.svg'), 'utf8');
    expect(svg).toContain('data-of="back cb, before"');
    expect(svg).toContain('data-of="back cb, changed"');
    expect(svg).toContain('>-12.70</text>');
    expect(readFileSync(join(folder, 'overlay.png')).subarray(1, 4).toString()).toBe('PNG');
    expect(readFileSync(join(folder, 'overlay.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
    const refused = await ran('compare net.svg v2.svg -o overlay.gif');
    expect(refused.code).toBe(2);
    expect((await ran('compare net.svg v2.svg -o net.svg')).stderr).toContain('never overwritten');
  });

  it('is a filter with exit codes for a shell', async () => {
    const { stdout } = await runShell(
      `staywright compare net.svg net.svg -q; echo "same $?"
      staywright take-in net.svg --seam cb --amount 2mm -q | staywright compare net.svg | tail -1
      cmp -s net.svg '${join(INPUTS, 'net.svg')}' && echo untouched`,
      { cwd: folder },
    );
    expect(stdout).toBe(
      'same 0\nThey differ: cb on back comes in by up to 2.00 mm; round the body -4.00 mm at every level.\nuntouched\n',
    );
    expect(readFileSync(join(folder, 'net.svg'), 'utf8')).toBe(readFileSync(join(INPUTS, 'net.svg'), 'utf8'));
  });
});
