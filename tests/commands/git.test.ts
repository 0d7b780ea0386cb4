/** Sheets in real git repositories: what merges, and what does not and is then explained. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { hashGeometry } from '../../src/record/hash-geometry.ts';
import { conflictError } from '../../src/svg/conflict-error.ts';
import { panelSheets } from '../../src/svg/panel-sheets.ts';
import { readSvg } from '../../src/svg/read-svg.ts';
import type { Sheet } from '../../src/svg/sheet.ts';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { inRepository, mergeTexts, type GitFolder } from '../support/git-folder.ts';
import { runMain } from '../support/run-main.ts';
import { inFolder, runShell } from '../support/run-staywright.ts';

const sheetIn = (text: string): Sheet => {
  const reading = readSvg(text, 'stays.svg');
  if (reading.kind === 'drawing') throw new Error('not a sheet');
  return reading.sheet;
};

/** Three panels, front, side and back, with one change in their record. */
const SHEET = ((): string => {
  const { pattern } = sheetIn(readFileSync(new URL('../golden/inputs/net.svg', import.meta.url), 'utf8'));
  const after = hashGeometry(pattern);
  return writeSheet({
    pattern,
    record: [{ command: 'label', version: '0.1.0', step: 1, before: null, after, girth_mm: {} }],
  });
})();

const known = new Map<string, Promise<string>>();

/** The text that a command makes of a sheet. */
const altered = (text: string, command: string): Promise<string> => {
  const key = `${command}\n${text}`;
  const made =
    known.get(key) ??
    runMain([...command.split(' '), '-q'], { stdin: text }).then(({ code, stdout, stderr }) => {
      expect(`${stderr}${code}`).toBe('0');
      return stdout;
    });
  known.set(key, made);
  return made;
};

const checkText = (text: string) => runMain(['check', '-'], { stdin: text });

/** What git makes of two changes of one sheet. */
const joined = async (ours: string, theirs: string, base = SHEET, ...options: readonly string[]) =>
  mergeTexts([await altered(base, ours), base, await altered(base, theirs)], ...options);

interface Merged {
  readonly folder: GitFolder;
  readonly first: string;
  readonly second: string;
  /** Of git merge: 0 where it joined both. */
  readonly code: number | null;
}

/** Two people change one sheet, each on a branch of their own, and the second, on `main`, merges the first. */
const merging = <Result>(first: string, second: string, work: (merged: Merged) => Promise<Result>): Promise<Result> =>
  inRepository(async (folder) => {
    folder.write('stays.svg', SHEET);
    folder.commit('as drawn');
    folder.git('checkout', '-q', '-b', 'other');
    folder.write('stays.svg', await altered(SHEET, first));
    folder.commit('first');
    folder.git('checkout', '-q', 'main');
    folder.write('stays.svg', await altered(SHEET, second));
    folder.commit('second');
    const { code } = folder.git('merge', '-q', '-m', 'both', 'other');
    const versionOf = (branch: string): string => folder.git('show', `${branch}:stays.svg`).stdout;
    return work({ folder, code, first: versionOf('other'), second: versionOf(code === 0 ? 'main^' : 'main') });
  });

/** Each panel's lines, by its name. */
const panelsIn = (text: string): Map<string, string> =>
  new Map([...text.matchAll(/^ {2}<g id="([^"]*)"[^]*?^ {2}<\/g>$/gm)].map(([all, name]) => [name!, all]));

const commandsIn = (text: string): string[] => sheetIn(text).record.map(({ command }) => command);

describe('two people who change different panels', () => {
  const TAKE_IN = 'take-in --seam cb --amount 9mm --above waist';
  const LET_OUT = 'let-out --seam front-side --amount 3mm --below waist';

  it('are joined by git without a word', () =>
    merging(TAKE_IN, LET_OUT, async ({ folder, code, first, second }) => {
      expect(code).toBe(0);
      const both = folder.read('stays.svg');
      const [was, one, other, now] = [SHEET, first, second, both].map(panelsIn) as [
        Map<string, string>,
        Map<string, string>,
        Map<string, string>,
        Map<string, string>,
      ];
      expect([...now.keys()]).toEqual([...was.keys()]);
      for (const [name, lines] of now) {
        expect(lines).toBe(name === 'back' ? one.get(name) : other.get(name));
      }
      const changed = [...was.keys()].filter((name) => now.get(name) !== was.get(name));
      expect(changed).toEqual(['front', 'side', 'back']);
      expect(commandsIn(both)).toEqual(['label', LET_OUT, TAKE_IN]);
      expect(sheetIn(both).record.map(({ step }) => step)).toEqual([1, 2, 2]);

      // The same as one after the other.
      const chained = await altered(await altered(SHEET, TAKE_IN), LET_OUT);
      expect(hashGeometry(sheetIn(both).pattern)).toBe(hashGeometry(sheetIn(chained).pattern));

      const checked = await runMain(['check', 'stays.svg'], { cwd: folder.path });
      expect(checked.code).toBe(0);
      expect(checked.stdout).toContain(
        `note: record, change 2: 2 versions made apart were joined here: ${LET_OUT}; and ${TAKE_IN}\n  hint: neither maker has seen both changes together; whether both are in the shape is told by: staywright record stays.svg --verify ORIGINAL\n`,
      );
      folder.write('original.svg', SHEET);
      const verified = await runMain(['record', 'stays.svg', '--verify', 'original.svg'], { cwd: folder.path });
      expect(verified).toMatchObject({ code: 0, stderr: '' });
      const later = await altered(both, 'take-in --seam cf --amount 2mm');
      expect((await checkText(later)).stdout).not.toContain('made apart');
      const next = sheetIn(later).record.at(-1)!;
      expect([next.step, next.before]).toEqual([3, hashGeometry(sheetIn(both).pattern)]);
    }));

  it('are joined however often, each time with changes of their own', async () => {
    const { text: once } = await joined(TAKE_IN, LET_OUT);
    const { text, conflicts } = await joined(
      'take-in --seam cf --amount 2mm',
      'let-out --seam cb --amount 2mm --below waist',
      once,
    );
    expect(conflicts).toBe(0);
    expect(sheetIn(text).record.map(({ step }) => step)).toEqual([1, 2, 2, 3, 3]);
    const checked = await checkText(text);
    expect(checked.code).toBe(0);
    expect(checked.stdout.match(/change \d+: 2 versions made apart/g)).toEqual(['change 3: 2 versions made apart']);
  });

  it('are joined where each panel is a file', () =>
    inFolder(async (folder) => {
      const [ours, base, theirs] = [await altered(SHEET, TAKE_IN), SHEET, await altered(SHEET, LET_OUT)].map((text) =>
        panelSheets(sheetIn(text)),
      );
      for (const [at, { name, text }] of base!.entries()) {
        const merged = await mergeTexts([ours![at]!.text, text, theirs![at]!.text]);
        expect(merged.conflicts).toBe(0);
        writeFileSync(join(folder, `${name}.svg`), merged.text);
      }
      const checked = await runMain(['check', `${folder}/`]);
      expect(checked.stdout).toMatch(/2 versions made apart[^]*nothing is wrong\n$/);
    }));
});

/** What each line of the later version that git shows as new belongs to. */
const ownersOf = (folder: GitFolder, from: string, to: string): string[] => {
  const lines = folder.git('show', `${to}:stays.svg`).stdout.split('\n');
  const ownerOf = (at: number): string => {
    const line = lines[at]!;
    if (line.startsWith('{')) return 'record';
    const [, kind] = /^ *<.*? data-kind="(\w+)"/.exec(line) ?? [];
    const [, name] = / data-(?:edge|level)="([^"]*)"/.exec(line) ?? [];
    if (kind === undefined) return ownerOf(at - 1);
    const before = lines.slice(0, at + 1).findLast((one) => one.startsWith('  <g '));
    return `${/id="([^"]*)"/.exec(before!)![1]}: ${kind}${name === undefined ? '' : ` ${name}`}`;
  };
  const hunks = folder.git('diff', '-U0', from, to).stdout.matchAll(/^@@ [^ ]+ \+(\d+)(?:,(\d+))? @@/gm);
  const numbers = [...hunks].flatMap(([, start, count = '1']) =>
    Array.from({ length: Number(count) }, (_, i) => Number(start) - 1 + i),
  );
  return [...new Set(numbers.map(ownerOf))].toSorted();
};

const words = async (text: string): Promise<string[]> =>
  (await runMain(['describe'], { stdin: text })).stdout.split('\n');

describe('the difference of one changed edge', () => {
  it('lies in its own lines, the lines that must follow it, and the record', () =>
    merging('take-in --seam cb --amount 9mm --above waist', 'let-out --seam cf --amount 8mm', async ({ folder }) => {
      const owners = ownersOf(folder, 'main~1^', 'other');
      expect(owners).toEqual(['back: edge cb', 'back: edge top', 'back: level bust', 'record']);
    }));

  it('is small in the words of describe too', async () => {
    const command = 'take-in --seam cb --amount 9mm --above waist';
    const before = new Set(await words(SHEET));
    const said = (await words(await altered(SHEET, command))).filter((line) => !before.has(line));
    expect(said.filter((line) => !line.startsWith('panel back, '))).toEqual([
      expect.stringMatching(/^level bust: girth /),
      expect.stringMatching(/^pattern: version [0-9a-f]{12}$/),
      `change 2: ${command}`,
    ]);
    expect(said.length).toBeLessThanOrEqual(10);
  });
});

describe('two people who change different edges of one panel', () => {
  const CB = 'take-in --seam cb --amount 9mm --above waist';

  it('are joined where their changes lie apart on the panel', async () => {
    const { text, conflicts } = await joined(CB, 'let-out --seam side-back --amount 4mm --below waist');
    expect(conflicts).toBe(0);
    const { code, stdout } = await checkText(text);
    expect([code, stdout.split('\n').at(-2)]).toEqual([0, 'drawn: nothing is wrong']);
  });

  it('are told where both changed the same level', async () => {
    const { text, conflicts } = await joined(CB, 'let-out --seam side-back --amount 4mm --above waist');
    expect(conflicts).toBeGreaterThan(0);
    expect((await checkText(text)).stderr).toMatch(/which differ in panel back \(line \d+\): [^\n]*levels? bust/);
  });
});

const manyEdges = (at: number): string =>
  Array.from({ length: 2000 }, (_, i) => `<path data-kind="edge" data-edge="e${i}" d="M ${at},0"/>\n`).join('');

const panelInTwo = (name: string): string => {
  const edge = `<path data-kind="edge" data-edge="${'x'.repeat(500)}"/>`;
  return `<g id="${name}" data-kind="panel">\n<<<<<<< a\n${edge}\n=======\n>>>>>>> b\n</g>\n`;
};

describe('two people who change the same edge', () => {
  const [LESS, MORE] = ['take-in --seam cb --amount 4mm', 'take-in --seam cb --amount 9mm'];

  it('get the marks of git, and every command explains them', () =>
    merging(LESS, MORE, async ({ folder, code }) => {
      expect(code).toBe(1);
      const marked = folder.read('stays.svg');
      const lineOf = (at: number): number =>
        [...marked.split('\n').entries()].filter(([, line]) => line.startsWith('<<<<<<< ')).map(([n]) => n + 1)[at]!;
      const checked = await runMain(['check', 'stays.svg'], { cwd: folder.path });
      expect(checked.code).toBe(2);
      expect(checked.stdout).toBe('');
      const [message, ...hint] = checked.stderr.split('\n');
      expect(message).toBe(
        `staywright check: stays.svg:${lineOf(0)}:1: git could not join two versions, which differ in panel back (line ${lineOf(1)}): edges top, cb, bottom and levels bust, waist, hip; the record of changes`,
      );
      expect(message!.length).toBeLessThanOrEqual(200);
      const [less, more] = [LESS, MORE].map((command) => command.replace('take-in', 'take-in stays.svg'));
      const put = '-o stays-both.svg && mv stays-both.svg stays.svg && git add stays.svg';
      expect(hint).toEqual([
        '  hint: keep one version and do on it once more what the other did: either',
        `          git checkout --ours stays.svg && staywright ${less} ${put}`,
        '        or',
        `          git checkout --theirs stays.svg && staywright ${more} ${put}`,
        '        then git commit',
        '',
      ]);
      const girth = await runMain(['girth', '-'], { stdin: marked });
      expect(girth.code).toBe(2);
      expect(girth.stderr).toContain('standard input:');
      expect(girth.stderr.split('\n')[0]!.split('which differ in ')[1]).toBe(message!.split('which differ in ')[1]);
      const asked = await runMain(['record', '-', '--verify', 'stays.svg'], { cwd: folder.path, stdin: SHEET });
      expect(asked.code).toBe(2);
      expect(asked.stderr).toBe(checked.stderr.replace('staywright check', 'staywright record'));

      // The lines of the hint are typed as they stand.
      const typed = await runShell(hint[1]!, { cwd: folder.path });
      expect(typed.code).toBe(0);
      expect(folder.git('commit', '-q', '--no-edit').code).toBe(0);
      expect(folder.git('status', '--porcelain').stdout).toBe('');
      expect(commandsIn(folder.read('stays.svg'))).toEqual(['label', MORE, LESS]);
      expect((await runMain(['check', 'stays.svg'], { cwd: folder.path })).code).toBe(0);
    }));

  it('are told of the edge where the record could be joined', async () => {
    const { text } = await joined('redraw-edge --edge top --at cb=5mm --at side-back=5mm', MORE);
    const { code, stderr } = await checkText(text);
    expect(code).toBe(2);
    expect(stderr).not.toContain('record of changes');
    expect(stderr).toMatch(/panel back \(line \d+\): edges top, cb/);
    expect(stderr).toContain('\n          git checkout --ours FILE.svg && staywright record FILE.svg\n');
    expect(stderr).toContain(
      '\n          staywright redraw-edge FILE.svg --edge top --at cb=5mm --at side-back=5mm -o ',
    );
    expect(stderr).toContain(
      `\n          staywright ${MORE.replace('take-in', 'take-in FILE.svg')} -o FILE-both.svg && mv `,
    );
  });

  it.each(['--diff3', '--zdiff3'])('are told the same where git shows what was there before too: %s', async (style) => {
    const { text } = await joined(MORE, LESS, SHEET, style);
    expect(text).toMatch(/^\|{7} /m);
    const { code, stderr } = await checkText(text);
    expect(code).toBe(2);
    expect(stderr).toMatch(/panel back \(line \d+\): edges top, cb, bottom and [^\n]*; the record of changes\n/);
    const less = LESS.replace('take-in', 'take-in FILE.svg');
    expect(stderr).toContain(`\n          git checkout --ours FILE.svg && staywright ${less} -o FILE-both.svg && mv `);
  });

  it.each([
    ['', 'edges e0, e1, e2, 1997 edges more'],
    ['<g id="long-name-of-a-panel-for-the-third-size" data-kind="panel">\n', ': edges e0, e1, e2, 1997 edges more'],
  ])('are told in few words of however many edges', async (panel, says) => {
    const text = `<svg>\n${panel}<<<<<<< a\n${manyEdges(1)}=======\n${manyEdges(2)}>>>>>>> b\n</svg>\n`;
    const { code, stderr } = await checkText(text);
    expect(code).toBe(2);
    expect(stderr.split('\n')[0]!.length).toBeLessThanOrEqual(200);
    expect(stderr.split('\n')[0]).toContain(says);
  });

  it('are told in few words of however many panels, and of names however long', async () => {
    const { stderr } = await checkText(`<svg>\n${['a', 'b', 'c', 'd'].map(panelInTwo).join('')}</svg>\n`);
    expect(stderr.split('\n')[0]!.length).toBeLessThanOrEqual(200);
    expect(stderr).toMatch(/panel a \(line 3\): edge x+…; panel b \(line 9\): edge x+…; 2 panels more\n/);
  });

  it('get no line to type that a shell would read as more than words', async () => {
    const { text } = await joined(MORE, LESS);
    const { stderr } = await checkText(text.replaceAll('--amount 9mm', '--amount 9mm; touch x'));
    expect(stderr).not.toContain('touch');
    expect(stderr).toContain('git checkout --theirs FILE.svg && staywright record FILE.svg\n');
  });

  it('take the whole folder on one side where each panel is a file', async () => {
    const [ours, base, theirs] = [await altered(SHEET, MORE), SHEET, await altered(SHEET, LESS)].map(
      (text) => panelSheets(sheetIn(text)).at(-1)!.text,
    );
    const { text } = await mergeTexts([ours!, base!, theirs!]);
    const typed = LESS.replace('take-in', "take-in 'my stays/'");
    expect(conflictError(text, 'my stays/back.svg')!.hint!.split('\n')[1]).toBe(
      `  git checkout HEAD -- 'my stays/' && staywright ${typed} -o 'my stays-both/' && cp 'my stays-both/'*.svg 'my stays/' && git add 'my stays/'*.svg`,
    );
  });

  it('are told of marks that were left when the rest was mended', async () => {
    const { text } = await joined(MORE, LESS);
    const mended = text.replaceAll(/^<{7}[^\n]*\n|^={7}\n[^]*?^(?=>{7})/gm, '').replace(/^>{7}[^\n]*\n/m, '');
    expect(mended.match(/^[<=>]{7}.*$/gm)).toHaveLength(2);
    const line = mended.split('\n').findIndex((one) => one.startsWith('>>>>>>>')) + 1;
    const { code, stderr } = await checkText(mended);
    expect(code).toBe(2);
    expect(stderr).toContain(`standard input:${line}:1: a mark of git stands here`);
  });
});
