/** What describe tells git, and what it gives git where there is no sheet to describe. */
import { chmodSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { gitEnvironment, inRepository } from '../support/git-folder.ts';
import { runMain } from '../support/run-main.ts';
import { EXECUTABLE, inFolder, runShell } from '../support/run-staywright.ts';

const SHEET = readFileSync(new URL('../golden/inputs/net.svg', import.meta.url), 'utf8');

const TAKE_IN = 'take-in --seam cb --amount 3/8in --above waist';

describe('what git is told', () => {
  it('is printed as lines that, run as printed, make git diff name the seam and the amount', () =>
    inRepository(async (folder) => {
      const tools = join(folder.path, '.git', 'tools');
      mkdirSync(tools);
      writeFileSync(join(tools, 'staywright'), `#!/bin/sh\nexec '${process.execPath}' '${EXECUTABLE}' "$@"\n`);
      chmodSync(join(tools, 'staywright'), 0o755);
      const setup = await runMain(['describe', '--git-setup']);
      expect(setup).toMatchObject({ code: 0, stderr: '' });
      expect(setup.stdout).toContain('staywright check FILE\n');
      expect(Math.max(...setup.stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);

      folder.write('stays.svg', SHEET);
      folder.write('stage.svg', '<svg xmlns="http://www.w3.org/2000/svg">\n  <circle r="5"/>\n</svg>\n');
      const env = { ...gitEnvironment(), PATH: `${tools}:${process.env['PATH']}` } as Record<string, string>;
      const shell = (script: string) => runShell(`unset -f staywright\n${script}`, { cwd: folder.path, env });
      const ran = await shell(setup.stdout);
      expect(ran).toMatchObject({ code: 0, stdout: '', stderr: '' });
      expect(folder.read('.gitattributes')).toBe('*.svg diff=staywright\n');
      expect(folder.git('check-ignore', 'v2/print.pdf').stdout).toBe('v2/print.pdf\n');
      folder.commit('as drawn');

      folder.write('stays.svg', (await runMain(TAKE_IN.split(' '), { stdin: SHEET })).stdout);
      folder.write('stage.svg', '<svg xmlns="http://www.w3.org/2000/svg">\n  <circle r="6"/>\n</svg>\n');
      const shown = await shell('git diff');
      expect(shown).toMatchObject({ code: 0, stderr: '' });
      expect(shown.stdout).toContain(`\n+change 3: ${TAKE_IN}\n`);
      expect(shown.stdout).toMatch(/^-panel back, edge cb: length /m);
      expect(shown.stdout).toMatch(/^\+panel back, edge cb: length /m);
      expect(shown.stdout).toContain('\n-  <circle r="5"/>\n+  <circle r="6"/>\n');
      expect(shown.stdout).not.toContain('data-kind');
    }));

  it('is told without a sheet, so that none can be passed on', async () => {
    expect(await runMain(['describe', '--git-setup', '--through'])).toMatchObject({ code: 2, stdout: '' });
  });
});

describe('what is no sheet', () => {
  it('is given out as it is, byte for byte', () =>
    inFolder(async (folder) => {
      writeFileSync(join(folder, 'latin.svg'), Buffer.from([0x3c, 0x73, 0xe9, 0x0d, 0x0a, 0x00, 0xff]));
      const ran = await runShell('staywright describe --as-is latin.svg | cmp - latin.svg', { cwd: folder });
      expect(ran).toMatchObject({ code: 0, stdout: '', stderr: '' });
    }));

  it.each([
    ['a drawing', '<svg xmlns="http://www.w3.org/2000/svg"><circle r="5"/></svg>'],
    ['a sheet with marks of git', SHEET.replace('  <metadata', '<<<<<<< HEAD\n  <metadata')],
    ['no XML', 'notes\n'],
    ['nothing', ''],
  ])('is given out as it is: %s', async (_, text) => {
    expect(await runMain(['describe', '--as-is'], { stdin: text })).toEqual({ code: 0, stdout: text, stderr: '' });
    expect((await runMain(['describe'], { stdin: text })).code).toBe(2);
  });

  it('is no sheet that is described, nor a file that is not there', async () => {
    const plain = await runMain(['describe'], { stdin: SHEET });
    expect(await runMain(['describe', '--as-is'], { stdin: SHEET })).toEqual(plain);
    expect((await runMain(['describe', '--as-is', 'missing.svg'])).code).toBe(2);
  });
});
