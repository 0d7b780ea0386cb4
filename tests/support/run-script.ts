import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { runMain, type Finished } from './run-main.ts';
import type { RunOptions } from './run-staywright.ts';

/**
 * Runs lines of shell in this process, under `set -e`: pipes of `staywright`, `cat` and `cmp`, with `< FILE` and `> FILE`. A line may end
 * with `|` and go on in the next; words may be quoted. What else a shell can do, `runShell` does.
 */
export const runScript = async (
  script: string,
  { cwd = '.', stdin = '', ...rest }: RunOptions = {},
): Promise<Finished> => {
  let [stdout, stderr, code] = ['', '', 0];
  for (const line of script.trim().split(/(?<!\|\s*)\n\s*/)) {
    let input = Buffer.from(stdin);
    for (const part of partedByPipes(line)) {
      const { words, from, to } = readPart(part);
      if (from !== undefined) input = readFileSync(join(cwd, from));
      const ran = await runOne(words, { ...rest, cwd, stdin: input });
      input = Buffer.from(ran.stdout);
      if (to !== undefined) writeFileSync(join(cwd, to), input);
      if (to !== undefined) input = Buffer.alloc(0);
      stderr += ran.stderr;
      code = ran.code;
    }
    stdout += input.toString('utf8');
    if (code !== 0) break;
  }
  return { code, stdout, stderr };
};

const QUOTED = /'[^']*'|"[^"]*"/.source;

const partedByPipes = (line: string): string[] => line.match(new RegExp(`(?:${QUOTED}|[^|])+`, 'g')) ?? [];

const readPart = (part: string): { words: string[]; from?: string; to?: string } => {
  const tokens: readonly string[] = part.match(new RegExp(`[<>]|(?:${QUOTED}|[^\\s<>])+`, 'g')) ?? [];
  const bare = tokens.map((token) => token.replaceAll(new RegExp(QUOTED, 'g'), (quoted) => quoted.slice(1, -1)));
  const wrong = tokens.find((token) => /[$;&`*]/.test(token) && !/^['"]/.test(token));
  if (wrong !== undefined) throw new Error(`no shell to read ${wrong}`);
  const after = (sign: string): string | undefined =>
    tokens.includes(sign) ? bare[tokens.indexOf(sign) + 1] : undefined;
  const [from, to] = [after('<'), after('>')];
  const words = bare.filter((_, at) => ![tokens[at], tokens[at - 1]].some((token) => token === '<' || token === '>'));
  return { words, ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }) };
};

const runOne = async (
  [program = '', ...words]: readonly string[],
  options: RunOptions & { readonly cwd: string; readonly stdin: Uint8Array },
): Promise<Finished> => {
  if (program === 'staywright') return runMain(words, options);
  const contents = words.map((name) =>
    name === '-' ? Buffer.from(options.stdin) : readFileSync(join(options.cwd, name)),
  );
  if (program === 'cat') return { code: 0, stdout: Buffer.concat(contents).toString('utf8'), stderr: '' };
  if (program !== 'cmp') throw new Error(`no shell to run ${program}`);
  const same = contents[0]!.equals(contents[1]!);
  return { code: same ? 0 : 1, stdout: '', stderr: same ? '' : `${words.join(' and ')} differ\n` };
};
