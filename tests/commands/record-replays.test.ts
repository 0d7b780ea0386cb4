import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { Change } from '../../src/record/change.ts';
import { readSvg } from '../../src/svg/read-svg.ts';
import { runScript } from '../support/run-script.ts';
import { inFolder } from '../support/run-staywright.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

const recordOf = (text: string): readonly Change[] => {
  const reading = readSvg(text, 'sheet');
  if (reading.kind !== 'sheet') throw new Error('not a sheet');
  return reading.sheet.record;
};

describe('the commands of a record', () => {
  it('run again on the drawing give the same sheet, whatever order and file they were typed with', () =>
    inFolder(async (folder) => {
      cpSync(INPUTS, folder, { recursive: true });
      const typed = [
        'staywright label --from answers.json --pieces pairs drawn.svg',
        'staywright strip-allowance --allowance cf=0mm --allowance 15mm',
        "staywright take-in --above waist --amount '1/4in' --seam cb",
        'staywright gap --body body.json --through',
        'staywright let-out --at hip=4mm --at waist=0mm --seam side-back --units in -q',
        'staywright add-allowance --corners folded --allowance 15mm -o first.svg',
      ];
      const first = await runScript(typed.join(' | '), { cwd: folder });
      expect(first).toMatchObject({ code: 0, stdout: '' });
      const text = readFileSync(join(folder, 'first.svg'), 'utf8');
      const record = recordOf(text);
      const commands = record.map(({ command }) => command);
      expect(commands).toEqual([
        'label --line cutting --panels front,side,back --seams cf,front-side,side-back,cb --level underbust=waist+2in --pieces pairs --units in',
        'strip-allowance --allowance cf=0mm --allowance 15mm',
        'take-in --seam cb --amount 1/4in --above waist',
        'let-out --seam side-back --at hip=4mm --at waist=0mm',
        'add-allowance --allowance 15mm --corners folded',
      ]);
      for (const [at, change] of record.entries()) expect(change.before).toBe(record[at - 1]?.after ?? null);

      const script = commands.map((command) => `staywright ${command} -q`).join(' | ');
      const again = await runScript(script, {
        cwd: folder,
        stdin: readFileSync(join(folder, 'drawn.svg')),
      });
      expect(recordOf(again.stdout).map(({ after }) => after)).toEqual(record.map(({ after }) => after));
      writeFileSync(join(folder, 'again.svg'), again.stdout);
    }));
});
