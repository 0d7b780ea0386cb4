import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runMain, type Finished } from './run-main.ts';
import { runScript } from './run-script.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

/** A name that a shell, a comment and XML could each stumble over. */
const NAME = "the queen's $(stays); 衣\\n `x`";

/** What follows the first step: two versions of one net, and what takes the top of one for the other. */
const STEPS = `
  staywright strip-allowance cut-1.svg --allowance 15mm --allowance cf=0mm -q > net-1.svg
  staywright take-in net-1.svg --seam cb --amount 1/4in --above waist -q > v1.svg
  staywright let-out net-1.svg --seam side-back --amount 3mm -q > other.svg
  staywright splice other.svg v1.svg --above waist -q > v2.svg
  staywright add-allowance v2.svg --allowance 15mm -q > v3.svg`;

/** A folder with a drawing and the versions that were made of it: cut-1, net-1, v1, v2, v3, and the other parent of v2. */
export interface RecordSheets {
  readonly folder: string;
  run(words: string, stdin?: string): Promise<Finished>;
  file(name: string): string;
  write(name: string, text: string): void;
  remove(): void;
}

export const recordSheets = async (): Promise<RecordSheets> => {
  const folder = mkdtempSync(join(tmpdir(), 'staywright-record-'));
  cpSync(INPUTS, folder, { recursive: true });
  const write = (name: string, text: string): void => writeFileSync(join(folder, name), text);
  const label = await runMain(['label', 'drawn.svg', '--from', 'answers.json', '--name', NAME, '-q'], { cwd: folder });
  write('cut-1.svg', label.stdout);
  const ran = await runScript(STEPS, { cwd: folder });
  if (ran.code !== 0) throw new Error(ran.stderr);
  return {
    folder,
    run: (words, stdin = '') => runMain(words.split(' '), { cwd: folder, stdin }),
    file: (name) => readFileSync(join(folder, name), 'utf8'),
    write,
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
};
