import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { hashGeometry } from '../../src/record/hash-geometry.ts';
import type { Sheet } from '../../src/svg/sheet.ts';
import { sheetOf } from '../svg/drawn-svg.ts';
import type { Finished } from '../support/run-main.ts';
import { runScript } from '../support/run-script.ts';
import { runShell } from '../support/run-staywright.ts';

/** Some twenty commands in a row, once each a process of its own and once all in this one. */
vi.setConfig({ testTimeout: 60_000, hookTimeout: 120_000 });

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

/** Every command that alters a half pattern, as the record writes it. */
const FIRST = [
  'strip-allowance --allowance 15mm',
  'take-in --seam cb --amount 1/4in --above waist',
  'let-out --seam side-back --at bust=0mm --at waist=3mm --at hip=5mm',
  'raise-line --level waist --amount 8mm',
  'lengthen --between bust,waist --amount 12mm',
  'shorten --between waist,hip --amount 6mm',
] as const;

/** From a folder of sheets on; the pattern is true after the last. */
const SECOND = [
  'slash --panel side --from bottom --hinge waist --spread 6mm --lines 2',
  'redraw-edge --edge top --at side-back=0mm,cb=-10mm',
  'splice --above waist',
  'true',
] as const;

const THIRD = [
  'gusset --seam side-back --below waist-20mm --width 40mm',
  'split-sides',
  'let-out --seam side-back --amount 2mm --above waist --side left',
  'take-in --seam front-side --girth 4mm --between bust,hip --side right',
  'add-allowance --allowance 15mm --allowance cb=25mm',
] as const;

const LARGER = 'larger.svg';

/** A command as it is run: the other sheet of a splice is no part of what is recorded. */
const typed = (command: string): string => command.replace(/^splice/, `splice ${LARGER}`);

const pipeOf = (commands: readonly string[]): string =>
  commands.map((command) => `staywright ${typed(command)} -q`).join(' | ');

const [opening, ...rest] = FIRST;

const SCRIPT = `staywright label --from answers.json --pieces pairs drawn.svg -q > labelled.svg
staywright ${opening} labelled.svg -q | ${pipeOf(rest)} -o halfway/
staywright ${SECOND[0]} halfway/ -q | ${pipeOf(SECOND.slice(1))} -o trued.svg
cat trued.svg | ${pipeOf(THIRD)} -o end.svg`;

let [folder, again] = ['', ''];
let runs: readonly Finished[] = [];

beforeAll(async () => {
  const folders = ['staywright-mixed-', 'staywright-again-'].map((name) => mkdtempSync(join(tmpdir(), name)));
  [folder, again] = folders as [string, string];
  for (const each of folders) cpSync(INPUTS, each, { recursive: true });
  const shell = await runShell(`set -e\n${SCRIPT}`, { cwd: folder });
  runs = [{ ...shell, code: shell.code ?? NaN }, await runScript(SCRIPT, { cwd: again })];
});

afterAll(() => {
  for (const each of [folder, again]) rmSync(each, { recursive: true, force: true });
});

const written = (file: string, within = folder): string => readFileSync(join(within, file), 'utf8');

const sheetIn = (file: string): Sheet => sheetOf(written(file));

const ran = (words: string): Promise<Finished> => runScript(`staywright ${words}`, { cwd: folder });

interface Girths {
  readonly levels: readonly { readonly level: string; readonly girth_mm: number }[];
}

describe('every alteration, one after another', () => {
  it('runs without a word', () => {
    expect(runs.map(({ code, stdout, stderr }) => ({ code, stdout, stderr }))).toEqual(
      Array.from({ length: 2 }, () => ({ code: 0, stdout: '', stderr: '' })),
    );
  });

  it('gives the same bytes when it is run again', () => {
    for (const file of [
      'labelled.svg',
      'trued.svg',
      'end.svg',
      ...readdirSync(join(folder, 'halfway')).map((name) => join('halfway', name)),
    ])
      expect(written(file, again)).toBe(written(file));
  });

  it('writes a sheet for each panel half-way, and goes on from them as from one', async () => {
    expect(
      readdirSync(join(folder, 'halfway'))
        .filter((name) => name.endsWith('.svg'))
        .toSorted(),
    ).toEqual(['back.svg', 'front.svg', 'side.svg']);
    const { code, stdout } = await runScript(`cat labelled.svg | ${pipeOf([...FIRST, ...SECOND])}`, {
      cwd: folder,
    });
    expect(code).toBe(0);
    // Each panel of a folder lay on a sheet of its own, so only where they stand on the one sheet may differ.
    const [piped, parted] = [sheetOf(stdout), sheetIn('trued.svg')];
    expect(piped.pattern).toEqual(parted.pattern);
    expect(piped.record).toEqual(parted.record);
  });

  it('leaves seams that walk, once they were trued', async () => {
    const { code, stdout } = await ran('walk trued.svg');
    expect(stdout).toMatch(/seam/);
    expect(code).toBe(0);
  });

  it.each(['trued.svg', 'end.svg'])('leaves %s without an error for check to find', async (file) => {
    const { code, stdout, stderr } = await ran(`check ${file}`);
    expect(stdout + stderr).not.toMatch(/error/i);
    expect([0, 1]).toContain(code);
  });

  it('holds every step in the record, each from what the one before it left', () => {
    const { record, pattern } = sheetIn('end.svg');
    const [labelled, ...steps] = record;
    expect(labelled!.command).toMatch(/^label /);
    expect(steps.map(({ command }) => command)).toEqual([...FIRST, ...SECOND, ...THIRD]);
    for (const [i, { before }] of steps.entries()) expect(before).toBe(record[i]!.after);
    expect(record.at(-1)!.after).toBe(hashGeometry(pattern));
    expect(steps.find(({ command }) => command.startsWith('splice'))!.other).toBe(
      hashGeometry(sheetIn(LARGER).pattern),
    );
  });

  it('has the girths in the end that the record says', async () => {
    const { code, stdout } = await ran('girth end.svg --json');
    expect(code).toBe(0);
    const { levels } = JSON.parse(stdout) as Girths;
    const recorded = sheetIn('trued.svg').record.at(-1)!;
    expect(recorded.command).toBe('true');
    const trued = JSON.parse((await ran('girth trued.svg --json')).stdout) as Girths;
    const of = ({ levels: all }: Girths, name: string): number => all.find(({ level }) => level === name)!.girth_mm;
    // The left side-back seam is let out by 2 mm on two lines at the bust; the right front-side seam taken in by 4 mm at the waist.
    expect(of({ levels }, 'bust') - of(trued, 'bust')).toBeCloseTo(4, 1);
    expect(of({ levels }, 'waist') - of(trued, 'waist')).toBeCloseTo(-4, 1);
    // Two gussets stand at the hip, each less wide there than at its base.
    expect(of({ levels }, 'hip') - of(trued, 'hip')).toBeGreaterThan(40);
    expect(of({ levels }, 'hip') - of(trued, 'hip')).toBeLessThan(80);
  });
});
