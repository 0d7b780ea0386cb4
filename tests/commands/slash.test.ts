import { cpSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { runMain } from '../support/run-main.ts';
import { runScript } from '../support/run-script.ts';
import { inFolder } from '../support/run-staywright.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

const inInputs = <Result>(work: (folder: string) => Promise<Result>): Promise<Result> =>
  inFolder((folder) => {
    cpSync(INPUTS, folder, { recursive: true });
    return work(folder);
  });

interface Girths {
  readonly levels: readonly { readonly level: string; readonly girth_mm: number }[];
}

const girthsOf = async (folder: string, script: string): Promise<Map<string, number>> => {
  const { code, stdout, stderr } = await runScript(`${script} | staywright girth --json`, { cwd: folder });
  expect({ code, stderr }).toMatchObject({ code: 0 });
  return new Map((JSON.parse(stdout) as Girths).levels.map(({ level, girth_mm }) => [level, girth_mm]));
};

/** The command that a report names. */
const namedIn = (report: string): string => {
  const command = report.split('\n').find((line) => line.startsWith('  staywright '));
  expect(report).toMatch(/^  staywright /m);
  return command!.trim();
};

describe('the command that a slashing names to keep the waist', () => {
  it.each([
    [
      'narrowed from the top',
      '--panel front --from top --parallel --spread=-1/4in --lines 2',
      'let-out',
      ['waist', 'hip'],
      'mm',
    ],
    [
      'spread from the bottom',
      '--panel side --from bottom --parallel --spread 7mm',
      'take-in',
      ['waist', 'bust'],
      'mm',
    ],
    [
      'spread to a hinge at the bottom',
      '--panel back --from top --hinge bottom --spread 9mm',
      'take-in',
      ['waist', 'hip'],
      'mm',
    ],
    ['in inches', '--panel side --from top --parallel --spread 1/8in', 'take-in', ['waist', 'hip'], 'in'],
  ])('brings it back when it is run: %s', (_, options, command, kept, units) =>
    inInputs(async (folder) => {
      const before = await girthsOf(folder, 'cat net.svg');
      const { code, stderr } = await runScript(`staywright slash net.svg ${options} --units ${units} > slashed.svg`, {
        cwd: folder,
      });
      expect({ code, stderr }).toMatchObject({ code: 0 });
      const named = namedIn(stderr);
      expect(named).toMatch(`staywright ${command} --seam `);
      const slashed = await girthsOf(folder, 'cat slashed.svg');
      const after = await girthsOf(folder, `${named} -q < slashed.svg`);
      for (const level of kept) {
        expect(Math.abs(slashed.get(level)! - before.get(level)!)).toBeGreaterThan(0.5);
        expect(Math.abs(after.get(level)! - before.get(level)!)).toBeLessThan(0.1);
      }
      const far = options.includes('from top') ? 'bust' : 'hip';
      expect(after.get(far)!).toBeCloseTo(slashed.get(far)!, 1);
    }),
  );

  it('is not named where the waist stayed', () =>
    inInputs(async (folder) => {
      const words = [
        'slash',
        'net.svg',
        '--panel',
        'side',
        '--from',
        'bottom',
        '--hinge',
        'waist',
        '--spread',
        '9mm',
        '-n',
      ];
      const { code, stderr, stdout } = await runMain(words, { cwd: folder });
      expect(code).toBe(0);
      expect(stderr + stdout).not.toMatch(/waist came out/);
    }));
});

describe('slash as a filter', () => {
  it('passes its sheet on and is recorded as typed', () =>
    inInputs(async (folder) => {
      const chain =
        "staywright slash --panel side --from bottom --hinge waist --lines 2 --spread '1/4in' -q < net.svg | staywright slash --panel back --from cb --hinge side-back --level waist --spread -6mm -q";
      const { code, stdout, stderr } = await runScript(chain, {
        cwd: folder,
      });
      expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
      expect(stdout).toMatch('slash --panel side --from bottom --hinge waist --spread 1/4in --lines 2');
      expect(stdout).toMatch('slash --panel back --from cb --hinge side-back --spread -6mm --level waist');
    }));

  it.each([
    ['--panel side --from bottom --spread 6mm', '--hinge: where do the slashes end?'],
    ['--panel side --from bottom --hinge waist --parallel --spread 6mm', '--parallel: cannot go with --hinge'],
    ['--from bottom --hinge waist --spread 6mm', '--panel: which panel?'],
    ['--panel side --hinge waist --spread 6mm', '--from: from which edge?'],
    ['--panel side --from bottom --hinge waist', '--spread: how far does each slash open?'],
    ['--panel side --from bottom --hinge waist --spread 6', "'6' has no unit"],
    ['--panel side --from bottom --hinge waist --spread 6mm --lines two', '--lines: takes a whole number from 1 to 20'],
    ['--panel side --from bottom --hinge waist --spread 6mm --keep left', "--keep: 'left' is no part"],
    ['--panel back --from cb --parallel --spread 6mm --lines 2 --level waist', '--lines: cannot go with --level'],
  ])('%s is a usage error', (options, message) =>
    inInputs(async (folder) => {
      const { code, stdout, stderr } = await runScript(`staywright slash net.svg ${options}`, { cwd: folder });
      expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
      expect(stderr).toContain(message);
    }),
  );
});

it('calls the one part between the front and the back the middle part, and says which way a top leans', async () => {
  const { stderr } = await inInputs((folder) =>
    runScript('staywright slash net.svg --panel back --from bottom --hinge waist --spread 4mm --lines 2 -n', {
      cwd: folder,
    }),
  );
  // Opened at the bottom, the front part swings its bottom forwards and so its top backwards.
  expect(stderr).toMatch(
    /front part leans \d\.\d\d degrees, its top to the back\nback: the middle part keeps the grain\nback: the back part leans \d\.\d\d degrees, its top to the front\n/,
  );
});
