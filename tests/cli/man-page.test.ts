import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Command } from '../../src/cli/command.ts';
import { foldCommand } from '../../src/cli/fold-command.ts';
import { manPage } from '../../src/cli/man-page.ts';
import { optionsOf } from '../../src/cli/parse-command-line.ts';
import { escapeRoff, verbatim } from '../../src/cli/roff.ts';
import { VERSION } from '../../src/cli/version.ts';
import { COMMANDS } from '../../src/main.ts';
import packageJson from '../../package.json' with { type: 'json' };

const hasGroff = spawnSync('groff', ['--version']).status === 0;

/** The page as it stands on a screen of 80 columns, with every warning that there is. */
const onScreen = (page: string): { text: string; warnings: string } => {
  const words = ['-man', '-ww', '-Tutf8', '-P-cbou', '-rLL=78n'];
  const { stdout, stderr } = spawnSync('groff', words, { input: page, encoding: 'utf8' });
  return { text: stdout.replaceAll(/[\u2010\u2212]/g, '-'), warnings: stderr };
};

const squeezed = (text: string): string => text.replaceAll(/\s+/g, ' ').trim();

describe('the page of the manual', () => {
  let commands: readonly Command[] = [];
  let page = '';
  beforeAll(async () => {
    commands = await Promise.all(COMMANDS.map(({ load }) => load()));
    page = manPage(COMMANDS, commands, VERSION);
  });

  it('lies in the package, as it was built', () => {
    const place = new URL(`../../${packageJson.man}`, import.meta.url);
    expect(existsSync(place)).toBe(true);
    expect(readFileSync(place, 'utf8')).toBe(page);
    expect(packageJson.files.some((folder) => packageJson.man.startsWith(`${folder}/`))).toBe(true);
  });

  it('bears the version and no date, and is plain ASCII', () => {
    expect(page).toMatch(new RegExp(String.raw`^\.TH STAYWRIGHT 1 "" "staywright ${VERSION}" `));
    expect(page).toMatch(/^[\n -~]*$/);
    expect(manPage(COMMANDS, commands, VERSION)).toBe(page);
  });

  it.skipIf(!hasGroff)('is set without a warning, within 80 columns', () => {
    const { text, warnings } = onScreen(page);
    expect(warnings).toBe('');
    expect(text.split('\n').filter((line) => line.length > 80)).toEqual([]);
  });

  it.skipIf(!hasGroff)('says all that help says of every command', () => {
    const text = squeezed(onScreen(page).text);
    const said = commands.flatMap((command) => [
      ...optionsOf(command).flatMap(({ flags, says }) => [flags, says]),
      ...command.notes,
      ...(command.sample ?? []),
      ...command.examples.flatMap(({ line }) => line.replaceAll(/ \\\n */g, ' ').split(/(?<=\|)\s/)),
    ]);
    // Comments and commands may have been broken into lines.
    const joined = text.replaceAll(/ \\ /g, ' ');
    expect(said.map(squeezed).filter((words) => !joined.includes(words))).toEqual([]);
    const headings = 'NAME SYNOPSIS DESCRIPTION EXAMPLES COMMANDS EXIT STATUS FILES ENVIRONMENT CAUTION'.split(' ');
    expect(headings.filter((heading) => !text.includes(heading))).toEqual([]);
  });
});

describe('text for the manual', () => {
  const odd = ["'tis", '.TH', 'a\\nb', '--level -6mm', '~/x ^ `y`', 'Zoë, 日本', '"quoted"', '\\fBx', '..', "a'b"];

  it('keeps what would be a request, an escape or another character', () => {
    expect(escapeRoff('.TH')).toBe(String.raw`\&.TH`);
    expect(escapeRoff("'a-b\\c")).toBe(String.raw`\(aqa\-b\ec`);
    expect(escapeRoff('Zoë')).toBe(String.raw`Zo\[u00EB]`);
  });

  it.skipIf(!hasGroff)('comes out as it was, line by line', () => {
    const { text, warnings } = onScreen(`.TH X 1\n.SH Y\n${verbatim(odd.join('\n'))}\n`);
    expect(warnings).toBe('');
    const lines = text.split('\n').map((line) => line.trim());
    expect(lines.slice(lines.indexOf(odd[0]!))).toEqual(expect.arrayContaining(odd));
  });
});

describe('a command in lines', () => {
  it('is broken after a pipe, else before an option, and stays the same command', () => {
    expect(foldCommand('tool a.svg --one 1 | tool --two', 24)).toBe('tool a.svg --one 1 |\n  tool --two');
    expect(foldCommand('tool a.svg --one 1 --two -o b.svg', 24)).toBe('tool a.svg --one 1 \\\n  --two -o b.svg');
    expect(foldCommand('short\n  and long enough -o x', 20)).toBe('short\n  and long enough \\\n  -o x');
  });

  it('keeps what cannot be broken', () => {
    expect(foldCommand('a-name-that-goes-on-and-on', 10)).toBe('a-name-that-goes-on-and-on');
    expect(foldCommand('tool -o', 3)).toBe('tool -o');
  });
});
