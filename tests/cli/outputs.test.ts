/** Files are written whole or not at all, inputs never, and nothing that is not ours without --force. */
import assert from 'node:assert/strict';
import {
  cpSync,
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { runMain, type Finished } from '../support/run-main.ts';
import { inFolder, runShell, type Ran } from '../support/run-staywright.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

const TAKE_IN = ['take-in', 'net.svg', '--seam', 'cb', '--amount', '3mm'];

const withInputs = (work: (folder: string) => Promise<void>): Promise<void> =>
  inFolder((folder) => {
    cpSync(INPUTS, folder, { recursive: true });
    return work(folder);
  });

/** Everything in a folder, by name. */
const snapshot = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder, { recursive: true, withFileTypes: true, encoding: 'utf8' })
      .filter((entry) => !entry.isDirectory())
      .map((entry) => join(entry.parentPath, entry.name))
      .map((path) => [path, existsSync(path) ? readFileSync(path, 'latin1') : 'a link to nothing']),
  );

/** What a refusal said, once it is sure that nothing was written and the exit code is 2. */
const refused = (ran: Ran | Finished, folder: string, before: Record<string, string>): string => {
  assert.deepEqual({ code: ran.code, stdout: ran.stdout }, { code: 2, stdout: '' }, ran.stderr);
  assert.deepEqual(snapshot(folder), before);
  return ran.stderr;
};

describe('an input is never overwritten', () => {
  it.each([
    ['under its own name', (): void => {}, 'net.svg'],
    ['under another path to it', (): void => {}, './sub/../net.svg'],
    ['through a symbolic link', (folder: string): void => symlinkSync('net.svg', join(folder, 'link.svg')), 'link.svg'],
    [
      'through a hard link',
      (folder: string): void => linkSync(join(folder, 'net.svg'), join(folder, 'hard.svg')),
      'hard.svg',
    ],
  ])('%s, not even with --force', (_, prepare, output) =>
    withInputs(async (folder) => {
      mkdirSync(join(folder, 'sub'));
      prepare(folder);
      const before = snapshot(folder);
      const ran = await runMain([...TAKE_IN, '-o', output, '--force'], { cwd: folder });
      expect(refused(ran, folder, before)).toMatch(/is the input.*never overwritten/);
    }),
  );

  it('when it came by standard input', () =>
    withInputs(async (folder) => {
      const before = snapshot(folder);
      const ran = await runShell('staywright take-in --seam cb --amount 3mm -o net.svg --force < net.svg', {
        cwd: folder,
      });
      expect(refused(ran, folder, before)).toMatch(/net\.svg: is the input standard input, which is never overwritten/);
    }));

  it('when standard output is tied to it', () =>
    withInputs(async (folder) => {
      const before = readFileSync(join(folder, 'net.svg'), 'utf8');
      const ran = await runShell('staywright take-in net.svg --seam cb --amount 3mm >> net.svg', { cwd: folder });
      expect(ran.stderr).toMatch(/standard output: is the input net\.svg/);
      expect(ran.code).toBe(2);
      expect(readFileSync(join(folder, 'net.svg'), 'utf8')).toBe(before);
    }));

  it('when it is a body or the answers', () =>
    withInputs(async (folder) => {
      symlinkSync('answers.json', join(folder, 'answers.svg'));
      const before = snapshot(folder);
      const words = ['label', 'drawn.svg', '--from', 'answers.json', '-o', 'answers.svg', '--force'];
      expect(refused(await runMain(words, { cwd: folder }), folder, before)).toMatch(/is the input answers\.json/);
    }));

  it('when it is a folder of sheets', () =>
    withInputs(async (folder) => {
      await runMain([...TAKE_IN, '-o', 'v2/'], { cwd: folder });
      const before = snapshot(folder);
      const words = ['take-in', 'v2/', '--seam', 'cb', '--amount', '3mm', '-o', 'v2/', '--force'];
      expect(refused(await runMain(words, { cwd: folder }), folder, before)).toMatch(/is the input/);
    }));
});

describe('a file that staywright did not write', () => {
  it('is left as it is', () =>
    withInputs(async (folder) => {
      const before = snapshot(folder);
      const ran = await runMain([...TAKE_IN, '-o', 'drawn.svg'], { cwd: folder });
      expect(refused(ran, folder, before)).toMatch(/drawn\.svg: was not written by staywright\n {2}hint: .*--force/);
    }));

  it('is replaced with --force', () =>
    withInputs(async (folder) => {
      const ran = await runMain([...TAKE_IN, '-o', 'drawn.svg', '--force'], { cwd: folder });
      expect(ran.code).toBe(0);
      expect(readFileSync(join(folder, 'drawn.svg'), 'utf8')).toContain('data-sheet="1"');
    }));

  it('is no sheet and no PDF of its own, which it replaces', () =>
    withInputs(async (folder) => {
      for (let round = 0; round < 2; round++) {
        const ran = await runMain([...TAKE_IN, '-o', 'v2.svg', '--pdf', 'v2.pdf'], { cwd: folder });
        expect(ran.stderr).toContain('wrote v2.pdf');
        expect(ran.code).toBe(0);
      }
    }));
});

describe('outputs are all checked before the first is written', () => {
  it.each([
    ['a folder that is missing', ['-o', 'v2.svg', '--pdf', 'missing/v2.pdf'], /there is no folder missing/],
    ['a folder in place of a file', ['-o', 'v2.svg', '--pdf', 'folder.pdf'], /folder\.pdf: is a folder/],
    ['one name twice', ['-o', 'v2.svg', '--pdf', 'v2.svg'], /--pdf: v2\.svg does not end in \.pdf/],
    ['a file for a folder', ['-o', 'net.svg/v2.svg'], /there is no folder net\.svg/],
    ['a link to nothing', ['-o', 'dangling.svg'], /dangling\.svg: cannot be written/],
    ['another ending', ['-o', 'v2.png'], /-o: v2\.png does not end in \.svg\n {2}hint: name it v2\.svg/],
    ['pages where a sheet is meant', ['-o', 'v2.pdf'], /hint: write pages with --pdf v2\.pdf/],
    ['paper without pages', ['-o', 'v2.svg', '--paper', 'a4'], /--paper: there are no pages/],
    ['a device', ['-o', 'null.svg'], /null\.svg: is no plain file/],
  ])('%s', (_, output, message) =>
    withInputs(async (folder) => {
      mkdirSync(join(folder, 'folder.pdf'));
      symlinkSync('nowhere.svg', join(folder, 'dangling.svg'));
      symlinkSync('/dev/null', join(folder, 'null.svg'));
      const before = snapshot(folder);
      expect(refused(await runMain([...TAKE_IN, ...output], { cwd: folder }), folder, before)).toMatch(message);
    }),
  );

  it.skipIf(process.getuid?.() === 0)('a folder that may not be written to', () =>
    withInputs(async (folder) => {
      mkdirSync(join(folder, 'locked'), { mode: 0o500 });
      const before = snapshot(folder);
      const ran = await runMain([...TAKE_IN, '-o', 'locked/v2.svg'], { cwd: folder });
      expect(refused(ran, folder, before)).toMatch(/permission is denied/);
    }),
  );

  it('a place where no file can be made leaves no temporary file behind', async () => {
    await withInputs(async (folder) => {
      const ran = await runMain([...TAKE_IN, '-o', 'v2.svg', '--pdf', '/proc/v2.pdf'], { cwd: folder });
      expect(ran.code).toBe(2);
      expect(ran.stderr).toMatch(/\/proc\/v2\.pdf: cannot be written/);
      expect(readdirSync(folder).filter((name) => name.includes('v2'))).toEqual([]);
    });
  });

  it('a full disk is told and is no bug', async () => {
    const ran = await runShell(`staywright take-in '${INPUTS}/net.svg' --seam cb --amount 3mm > /dev/full`);
    expect(ran.stderr).toMatch(/standard output: cannot be written: the disk is full/);
    expect(ran.code).toBe(2);
  });
});

describe('a folder of sheets', () => {
  it('is read again as the sheet that it was', () =>
    withInputs(async (folder) => {
      await runMain([...TAKE_IN, '-o', 'v2/'], { cwd: folder });
      await runMain([...TAKE_IN, '-o', 'v2.svg'], { cwd: folder });
      expect(readdirSync(join(folder, 'v2')).toSorted()).toEqual(['back.svg', 'front.svg', 'print.pdf', 'side.svg']);
      const [one, other] = await Promise.all(
        ['v2/', 'v2.svg'].map((name) => runMain(['describe', name], { cwd: folder })),
      );
      expect(one!.stdout).toBe(other!.stdout);
      expect(one!.stderr).toBe('');
    }));

  it('is refused, naming the files, where two versions are mixed up in it', () =>
    withInputs(async (folder) => {
      await runMain([...TAKE_IN, '-o', 'v2/'], { cwd: folder });
      await runMain(['take-in', 'v2/', '--seam', 'cb', '--amount', '1mm', '-o', 'v3/'], { cwd: folder });
      cpSync(join(folder, 'v2/back.svg'), join(folder, 'v3/back.svg'));
      const ran = await runMain(['girth', 'v3'], { cwd: folder });
      expect(ran.stderr).toMatch(/v3\/front\.svg: its record of changes differs from that of v3\/back\.svg/);
      expect(ran.code).toBe(2);
    }));

  it('is read and written again beside a picture that was drawn into it', () =>
    withInputs(async (folder) => {
      await runMain([...TAKE_IN, '-o', 'v2/', '--overlay', 'v2/what-changed.svg'], { cwd: folder });
      expect((await runMain(['girth', 'v2/'], { cwd: folder })).code).toBe(0);
      const drawn = await runMain(['picture', 'v2/', '-o', 'v2/wall.svg'], { cwd: folder });
      const again = await runMain(['picture', 'v2/', '-o', 'v2/wall.svg'], { cwd: folder });
      expect([drawn.code, again.code]).toEqual([0, 0]);
      expect((await runMain([...TAKE_IN, '-o', 'v2/'], { cwd: folder })).code).toBe(0);
    }));

  it('is not written where another sheet lies', () =>
    withInputs(async (folder) => {
      mkdirSync(join(folder, 'v2'));
      cpSync(join(folder, 'net.svg'), join(folder, 'v2/old.svg'));
      const before = snapshot(folder);
      const ran = await runMain([...TAKE_IN, '-o', 'v2/'], { cwd: folder });
      expect(refused(ran, folder, before)).toMatch(/v2\/: holds another sheet, old\.svg/);
    }));
});

describe('a sheet that is there', () => {
  it('is replaced by a sheet, but by a picture only with --force', () =>
    withInputs(async (folder) => {
      await runMain([...TAKE_IN, '-o', 'v2.svg'], { cwd: folder });
      const before = snapshot(folder);
      const ran = await runMain([...TAKE_IN, '-o', 'v3.svg', '--overlay', 'v2.svg'], { cwd: folder });
      expect(refused(ran, folder, before)).toMatch(/v2\.svg: is a sheet, and what would replace it is none\n.*--force/);
      expect((await runMain([...TAKE_IN, '-o', 'v2.svg'], { cwd: folder })).code).toBe(0);
      expect((await runMain(['picture', 'net.svg', '-o', 'v2.svg', '--force'], { cwd: folder })).code).toBe(0);
    }));
});

describe('where words and sheets go', () => {
  it('a dry run writes nothing and says all', () =>
    withInputs(async (folder) => {
      const before = snapshot(folder);
      const ran = await runMain([...TAKE_IN, '-o', 'v2/', '-n'], { cwd: folder });
      expect(ran).toMatchObject({ code: 0, stdout: '' });
      expect(ran.stderr).toMatch(/would write v2\/front\.svg\n[^]*Taken in 6\.00 mm round the body/);
      expect(snapshot(folder)).toEqual(before);
    }));

  it('--quiet leaves the sheet alone on standard output', () =>
    withInputs(async (folder) => {
      const ran = await runMain([...TAKE_IN, '-q'], { cwd: folder });
      expect(ran.stderr).toBe('');
      expect(ran.stdout).toMatch(/^<\?xml/);
    }));

  it('JSON is one document, on standard error beside a sheet, else on standard output', () =>
    withInputs(async (folder) => {
      const beside = await runMain([...TAKE_IN, '--json'], { cwd: folder });
      const alone = await runMain([...TAKE_IN, '--json', '-o', 'v2.svg'], { cwd: folder });
      expect(beside.stdout).toMatch(/^<\?xml/);
      expect(JSON.parse(beside.stderr)).toEqual(JSON.parse(alone.stdout));
      expect(alone.stderr).toBe('');
    }));

  it('--through passes the very same geometry on, with the report on standard error', () =>
    withInputs(async (folder) => {
      const once = await runMain(['girth', 'net.svg', '--through'], { cwd: folder });
      const twice = await runMain(['girth', '--through'], { stdin: once.stdout });
      expect(twice).toEqual(once);
      expect(once.stderr).toMatch(/round the body/);
      const facts = await Promise.all([
        runMain(['describe', 'net.svg'], { cwd: folder }),
        runMain(['describe'], { stdin: once.stdout }),
      ]);
      expect(facts[1]).toEqual(facts[0]);
    }));

  it('writes the same bytes for the same words', () =>
    withInputs(async (folder) => {
      const [one, other] = await Promise.all([runMain(TAKE_IN, { cwd: folder }), runMain(TAKE_IN, { cwd: folder })]);
      expect(one.stdout).toBe(other.stdout);
    }));

  it('a file is written as it would go to standard output', () =>
    withInputs(async (folder) => {
      const piped = await runMain(TAKE_IN, { cwd: folder });
      writeFileSync(join(folder, 'piped.svg'), piped.stdout);
      await runMain([...TAKE_IN, '-o', 'written.svg'], { cwd: folder });
      expect(readFileSync(join(folder, 'written.svg'), 'utf8')).toBe(piped.stdout);
    }));
});
