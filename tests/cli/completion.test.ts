/** The completion scripts, in the shells that they are for: keys are typed on a terminal, and the words that come of it are read. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Command } from '../../src/cli/command.ts';
import { completion, completionHelp } from '../../src/cli/completion/completion.ts';
import { optionsOf } from '../../src/cli/parse-command-line.ts';
import { COMMANDS } from '../../src/main.ts';
import paperSizes from '../../shared/paper-sizes.json' with { type: 'json' };
import { caught } from '../support/caught.ts';
import { runMain } from '../support/run-main.ts';
import { inFolder, runStaywright } from '../support/run-staywright.ts';

const has = (program: string): boolean => spawnSync(program, ['--version']).status === 0;
const [hasScript, hasBash, hasZsh, hasFish] = [has('script'), has('bash'), has('zsh'), has('fish')];

let commands: readonly Command[] = [];
beforeAll(async () => {
  commands = await Promise.all(COMMANDS.map(({ load }) => load()));
});

/** Runs shell text in a folder with a few files to choose from; the completion script lies in `script`. */
const inShell = (shell: 'bash' | 'zsh' | 'fish', words: readonly string[], typed = ''): Promise<string> =>
  inFolder(async (folder) => {
    for (const name of ['net.svg', 'NET-2.SVG', 'notes.txt', 'body.json', 'sleeve a.svg', 'scan.JPG']) {
      writeFileSync(join(folder, name), '');
    }
    mkdirSync(join(folder, 'net-folder'));
    writeFileSync(join(folder, 'script'), completion([shell], commands));
    const env = { ...process.env, HOME: folder, TERM: 'xterm' };
    const [program, ...rest] = words;
    const { stdout, stderr } = spawnSync(program!, rest, { cwd: folder, env, input: typed, encoding: 'utf8' });
    return stdout + stderr;
  });

const COMPINIT = 'autoload -Uz compinit; compinit -D -u';

/** What comes of keys typed at a prompt, a line each: the words that the command was then given. */
const typedInto = async (shell: 'bash' | 'zsh', ready: string, lines: readonly string[]): Promise<string[]> => {
  const start = shell === 'bash' ? 'bash --norc --noprofile -i' : 'zsh -f -i';
  const typed = [`PS1=; staywright() { printf "<%s>" "$@"; echo; }; ${ready}. ./script`, ...lines, 'exit', ''];
  const shown = await inShell(shell, ['script', '-qec', start, '/dev/null'], typed.join('\n'));
  return shown
    .split(/\r*\n/)
    .flatMap((line) => /^(?:[^ ]*\r)?<(.*)>$/.exec(line)?.[1] ?? [])
    .map((words) => words.replaceAll('><', ' '));
};

/** What bash is offered after each of the lines, each word apart. */
const offeredByBash = async (lines: readonly (readonly string[])[]): Promise<string[][]> => {
  const tries = lines.map((words) => `try ${words.map((word) => `'${word}'`).join(' ')}`);
  const text = await inShell(
    'bash',
    ['bash', '--norc', '-s'],
    `. ./script
try() { COMP_WORDS=(staywright "$@") COMP_CWORD=$#; _staywright; (IFS=/; echo "\${COMPREPLY[*]}"); }
${tries.join('\n')}\n`,
  );
  return text.split('\n').map((line) => line.split('/').filter((word) => word !== ''));
};

const flagsOf = (command: Command): string[] =>
  optionsOf(command).flatMap(({ flags }) => flags.match(/(?<![\w-])--?[a-z][\w-]*/g) ?? []);

describe.skipIf(!hasBash)('in bash', () => {
  it('every command is offered, and after help too', async () => {
    const names = [...commands.map(({ name }) => name), 'completion'];
    const [first, helped, some] = await offeredByBash([[''], ['help', ''], ['s']]);
    expect(first).toEqual([...names, 'help', '--help', '--version']);
    expect(helped).toEqual(names);
    expect(some).toEqual(names.filter((name) => name.startsWith('s')));
  });

  it('every option of every command is offered after it', async () => {
    const offered = await offeredByBash(commands.map(({ name }) => [name, 'net.svg', '-']));
    const wanted = commands.map((command) => [...flagsOf(command), '-h', '--help']);
    expect(offered.slice(0, -1)).toEqual(wanted);
  });

  it('values come from closed lists, files by their endings, lengths not at all', async () => {
    const offered = await offeredByBash([
      ['label', 'drawn.svg', '--line', ''],
      ['girth', '--side', '=', 'l'],
      ['girth', '--side', '='],
      ['print', '--paper', ''],
      ['add-allowance', '--corners', 'f'],
      ['slash', '--keep', ''],
      ['gusset', '--sides', ''],
      ['trace', '--kind', ''],
      ['take-in', '--above', 'w'],
      ['take-in', '--amount', ''],
      ['girth', ''],
      ['trace', ''],
      ['gap', '--body', ''],
      ['gap', 'net.svg', '--body', 'b'],
      ['print', '-o', 'n'],
      ['girth', '--units', 'mm', '>', 'not'],
      ['completion', ''],
      ['no-such-command', ''],
    ]);
    const sheets = ['net-folder', 'net.svg', 'NET-2.SVG', 'sleeve a.svg'].toSorted();
    expect(offered.map((words) => words.toSorted()).slice(0, -1)).toEqual([
      ['cutting', 'stitching'],
      ['left'],
      ['left', 'right'],
      paperSizes.sizes.map(({ name }) => name).toSorted(),
      ['folded'],
      ['back', 'front', 'middle'],
      ['curved', 'straight'],
      ['cutout', 'line'],
      ['waist'],
      [],
      sheets,
      ['net-folder', 'scan.JPG'],
      ['body.json', 'net-folder'],
      ['body.json'],
      ['net-folder'],
      ['notes.txt'],
      ['bash', 'fish', 'zsh'],
      [],
    ]);
  });

  it.skipIf(!hasScript)('keys at a prompt complete words, in the second part of a pipe too', async () => {
    expect(
      await typedInto('bash', '', [
        'staywright gir\t net.\t --le\t wai\t',
        'staywright walk net.svg | staywright de\t --si\t le\t --js\t',
        'staywright walk sl\t --side=r\t',
        'staywright help sho\t',
      ]),
    ).toEqual([
      'girth net.svg --level waist',
      'describe --side left --json',
      'walk sleeve a.svg --side=right',
      'help shorten',
    ]);
  });
});

describe.skipIf(!hasZsh || !hasScript)('in zsh', () => {
  const lines = [
    'staywright gir\t net.\t --le\t wai\t',
    'staywright walk net.svg | staywright de\t --si\t le\t --js\t',
    'staywright add-allowance sl\t --corners fo\t --corners mi\t --dr\t',
    'staywright trace scan\t --ki\t cut\t -o x.svg',
    'staywright gap --bo\t bo\t --gap 2in',
    'staywright help sho\t',
    'staywright completion fi\t',
  ];
  const completed = [
    'girth net.svg --level waist',
    'describe --side left --json',
    'add-allowance sleeve a.svg --corners folded --corners mitre --dry-run',
    'trace scan.JPG --kind cutout -o x.svg',
    'gap --body body.json --gap 2in',
    'help shorten',
    'completion fish',
  ];

  it('keys at a prompt complete words, sourced or from a folder of functions', async () => {
    expect(await typedInto('zsh', `${COMPINIT}; `, lines)).toEqual(completed);
    const inFpath = `mkdir f; cp script f/_staywright; fpath=($PWD/f $fpath); ${COMPINIT}; true `;
    expect(await typedInto('zsh', inFpath, lines.slice(0, 2))).toEqual(completed.slice(0, 2));
  });

  it('options are shown with what they say', async () => {
    const start = `PS1=; ${COMPINIT}; . ./script`;
    const shown = await inShell(
      'zsh',
      ['script', '-qec', 'zsh -f -i', '/dev/null'],
      `${start}\nstaywright check --\t\nexit\n`,
    );
    expect(shown).toContain('-- pass the sheet on, report on standard error');
    expect(shown).toContain("-- units of the report (default: the sheet's own)");
  });
});

describe.skipIf(!hasFish)('in fish', () => {
  it('commands, options, values and files are offered with what they say', async () => {
    const lines = [
      'staywright gir',
      'staywright help sho',
      'ls | staywright girth --lev',
      'staywright print --paper ta',
      'staywright add-allowance --corners ',
      'staywright take-in --amount ',
      'staywright girth ne',
      'staywright trace sc',
      'staywright gap --body ',
      'staywright help girth --lev',
    ];
    const tries = lines.map((line) => `complete -C '${line}'; echo .`).join('\n');
    const shown = await inShell('fish', ['fish', '--no-config', '-c', `source ./script\n${tries}\n`]);
    const offered = shown.split(/^\.\n/m).map((part) => part.split('\n').filter((line) => line !== ''));
    const { summary } = commands.find(({ name }) => name === 'girth')!;
    const corners = 'mitre, square or folded; or top=folded,bottom=square';
    expect(offered.slice(0, -1).map((words) => words.map((word) => word.trimEnd()))).toEqual([
      [`girth\t${summary}`],
      ['shorten'],
      ['--level\tlevels parted by commas, may be repeated (all)'],
      ['tabloid\ta4 (default), letter, a0, roll:36in, 24inx36in'],
      [`folded\t${corners}`, `mitre\t${corners}`, `square\t${corners}`],
      [],
      ['net.svg', 'net-folder/'],
      ['scan.JPG'],
      ['body.json', 'net-folder/'],
      [],
    ]);
  });

  it('every option of every command is offered after it', async () => {
    const tries = commands.map(({ name }) => `complete -C 'staywright ${name} --'; echo .`).join('\n');
    const shown = await inShell('fish', ['fish', '--no-config', '-c', `source ./script\n${tries}\n`]);
    const offered = shown.split(/^\.\n/m).map((part) => [...part.matchAll(/^--[\w-]+/gm)].map(([word]) => word));
    const long = commands.map((command) => flagsOf(command).filter((flag) => flag.startsWith('--')));
    expect(offered.slice(0, -1)).toEqual(long.map((flags) => [...flags, '--help'].toSorted()));
  });
});

describe('the word completion', () => {
  it.each(['bash', 'zsh', 'fish'] as const)('%s: every command and option is named', (shell) => {
    const script = completion([shell], commands).replaceAll('\\', '');
    const named = commands.flatMap((command) => [
      command.name,
      ...flagsOf(command).map((flag) => flag.replace(/^-+/, '')),
    ]);
    const said = shell === 'bash' ? [] : commands.map(({ summary }) => summary.replaceAll("'", "'''"));
    expect([...named, ...said].filter((words) => !script.includes(words))).toEqual([]);
  });

  it('refuses what is no shell', () => {
    expect(caught(() => completion([], commands))).toMatchObject({
      code: 'usage',
      hint: 'staywright completion bash|zsh|fish',
    });
    expect(caught(() => completion(['bsh'], commands))).toMatchObject({ code: 'usage', hint: 'did you mean bash?' });
    expect(caught(() => completion(['tcsh'], commands))).toMatchObject({
      code: 'usage',
      hint: 'there are: bash, zsh, fish',
    });
    expect(caught(() => completion(['bash', 'zsh'], commands))).toMatchObject({ code: 'usage', where: 'zsh' });
  });

  it('is answered by the tool, with help and hints', async () => {
    const helped = await runMain(['help', 'completion']);
    const wrong = await runMain(['completion']);
    const near = await runMain(['completoin']);
    const printed = await runStaywright(['completion', 'fish']);
    expect(helped).toMatchObject({ code: 0, stdout: completionHelp(), stderr: '' });
    expect(wrong).toMatchObject({
      code: 2,
      stderr: expect.stringContaining('staywright completion: for which shell?'),
    });
    expect(near.stderr).toContain('did you mean completion?');
    expect(printed).toMatchObject({ code: 0, stdout: completion(['fish'], commands), stderr: '' });
    expect(
      Math.max(
        ...completionHelp()
          .split('\n')
          .map((line) => line.length),
      ),
    ).toBeLessThanOrEqual(80);
  });
});
