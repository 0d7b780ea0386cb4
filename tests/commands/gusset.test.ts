import { cpSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { Finished } from '../support/run-main.ts';
import { runScript } from '../support/run-script.ts';
import { inFolder } from '../support/run-staywright.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

const inInputs = (script: string, then: (ran: Finished, folder: string) => void): Promise<void> =>
  inFolder(async (folder) => {
    cpSync(INPUTS, folder, { recursive: true });
    then(await runScript(script, { cwd: folder }), folder);
  });

const SET = 'staywright gusset net.svg --seam side-back --below waist-1in --width 2in -q';

/** The edges of a sheet's panels, but for those of gussets, as they are written. */
const edgesOf = (sheet: string): string[] =>
  sheet.replace(/<g id="[^"]*-gusset".*?<\/g>/s, '').match(/<path data-kind="edge"[^>]*>/g)!;

describe('gusset', () => {
  it('passes the sheet on: girths grow by the gusset, a check finds nothing new', () =>
    inInputs(`${SET} | staywright check\n${SET} | staywright girth --level bottom --json`, ({ code, stdout }) => {
      expect(code).toBe(0);
      expect(stdout).not.toContain('gusset:');
      const [level] = (JSON.parse(stdout.slice(stdout.indexOf('{'))) as { levels: { panels: object[] }[] }).levels;
      expect(level!.panels).toContainEqual({ panel: 'side-back-gusset', width_mm: 50.8 });
    }));

  it('leaves every edge of the other panels as it is, to the character', () =>
    inInputs(`${SET} > out.svg`, ({ code }, folder) => {
      expect(code).toBe(0);
      const [before, after] = ['net.svg', 'out.svg'].map((file) => edgesOf(readFileSync(join(folder, file), 'utf8')));
      expect(before!.length).toBeGreaterThan(8);
      expect(after).toEqual(before);
    }));

  it('is read again from a folder of one sheet a panel', () =>
    inInputs(
      `${SET} -o parts/\nstaywright describe parts/ > parts.txt\n${SET} | staywright describe > whole.txt`,
      ({ code }, folder) => {
        expect(code).toBe(0);
        expect(readdirSync(join(folder, 'parts'))).toContain('side-back-gusset.svg');
        const [parts, whole] = ['parts.txt', 'whole.txt'].map((file) => readFileSync(join(folder, file), 'utf8'));
        expect(parts).toBe(whole);
        expect(parts).toContain('opening for side-back-gusset: begins below the waist 25.40 mm');
      },
    ));

  it('is recorded as typed and gives the same sheet when it is run again', () =>
    inInputs(
      `staywright gusset net.svg --width 2in --sides curved --panel side --slit ' waist-1in:0.5' -q > one.svg
      staywright gusset --panel side --slit ' waist-1in:0.5' --width 2in --sides curved -q < net.svg > two.svg`,
      ({ code }, folder) => {
        expect(code).toBe(0);
        const [one, two] = ['one.svg', 'two.svg'].map((file) => readFileSync(join(folder, file), 'utf8'));
        expect(one).toBe(two);
        expect(one).toContain('"command":"gusset --panel side --slit waist-1in:0.5 --width 2in --sides curved"');
      },
    ));

  it.each([
    ['--seam side-front --seam side-back', 2, 'set one into side-front, then another into side-back'],
    ['--seam side-front,side-back', 2, 'set one into side-front, then another into side-back'],
    ['', 2, 'into a seam: --seam side --below waist; or a slit: --panel P --slit waist:0.5'],
  ])('asks for one place: %s', (place, exit, hint) =>
    inFolder(async (folder) => {
      cpSync(INPUTS, folder, { recursive: true });
      const { code, stderr } = await runScript(`staywright gusset net.svg ${place} --below waist --width 2in`, {
        cwd: folder,
      });
      expect(code).toBe(exit);
      expect(stderr).toContain(hint);
    }),
  );

  it('says how far up from the bottom a slit runs', () =>
    inInputs(
      'staywright gusset net.svg --panel side --slit bottom:0.5 --length 60mm --width 40mm -n --units mm',
      ({ code, stderr }) => {
        expect(code).toBe(0);
        expect(stderr).toContain('into a slit of side, 60.00 mm up from the bottom:');
      },
    ));
});
