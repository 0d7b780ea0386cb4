/**
 * Each folder `COMMAND/CASE` here is one run of the real executable: `case.json` holds a note, the words typed and the exit code;
 * `expected/` the two streams and every file that was written. All of `inputs/` lies in the folder that it runs in.
 * `UPDATE=1` writes `expected/` anew, and that run fails, so that nobody keeps what nobody has read.
 */
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { inFolder, runStaywright } from '../support/run-staywright.ts';

interface Case {
  readonly note: string;
  readonly words: readonly string[];
  /** A file of `inputs/` that is fed to standard input. */
  readonly stdin?: string;
  readonly exit: number;
}

const here = fileURLToPath(new URL('.', import.meta.url));
const inputs = join(here, 'inputs');
const update = process.env['UPDATE'] === '1';

const foldersIn = (path: string): string[] =>
  readdirSync(path, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && entry.name !== 'inputs')
    .map((entry) => entry.name);

const filesIn = (folder: string): string[] =>
  existsSync(folder)
    ? readdirSync(folder, { recursive: true, withFileTypes: true, encoding: 'utf8' })
        .filter((entry) => entry.isFile())
        .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
        .toSorted()
    : [];

/** What a run left: its streams and the files that were not there before, PDFs by their size alone. */
const runCase = (one: Case): Promise<{ code: number | null; made: ReadonlyMap<string, string> }> =>
  inFolder(async (folder) => {
    cpSync(inputs, folder, { recursive: true });
    const given = new Set(filesIn(folder));
    const stdin = one.stdin === undefined ? '' : readFileSync(join(inputs, one.stdin));
    const { code, stdout, stderr } = await runStaywright(one.words, { cwd: folder, stdin });
    const made = new Map([
      ['stdout', stdout],
      ['stderr', stderr],
    ]);
    for (const file of filesIn(folder).filter((name) => !given.has(name))) {
      const text = readFileSync(join(folder, file), file.endsWith('.pdf') ? 'latin1' : 'utf8');
      made.set(`files/${file}`, file.endsWith('.pdf') ? `${text.slice(0, 8)}\n` : text);
    }
    for (const [name, text] of made) if (text === '') made.delete(name);
    return { code, made };
  });

const writeExpected = (folder: string, made: ReadonlyMap<string, string>): void => {
  rmSync(folder, { recursive: true, force: true });
  for (const [name, text] of made) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
};

const readExpected = (folder: string): Map<string, string> =>
  new Map(filesIn(folder).map((file) => [file, readFileSync(join(folder, file), 'utf8')]));

const folders = foldersIn(here).flatMap((command) => foldersIn(join(here, command)).map((name) => join(command, name)));

describe('the real executable', () => {
  it.each(folders)('%s', async (name) => {
    const one = JSON.parse(readFileSync(join(here, name, 'case.json'), 'utf8')) as Case;
    const { code, made } = await runCase(one);
    const expected = join(here, name, 'expected');
    const kept = readExpected(expected);
    if (update) writeExpected(expected, made);
    // A run that writes what it expects says nothing of the tool: it fails, and the next one compares.
    expect({ update, code, made }).toEqual({ update: false, code: one.exit, made: kept });
  });
});
