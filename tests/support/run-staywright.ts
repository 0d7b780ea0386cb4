import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const EXECUTABLE = fileURLToPath(new URL('../../bin/staywright.js', import.meta.url));

export interface Ran {
  /** Null where a signal ended it. */
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface RunOptions {
  readonly cwd?: string;
  readonly stdin?: string | Uint8Array;
  readonly env?: Readonly<Record<string, string>>;
}

/** Runs the real executable to its end. */
export const runStaywright = (words: readonly string[], options: RunOptions = {}): Promise<Ran> =>
  runProgram(process.execPath, [EXECUTABLE, ...words], options);

/** Runs shell text in which `staywright` is the real executable. */
export const runShell = (script: string, options: RunOptions = {}): Promise<Ran> =>
  runProgram('sh', ['-c', `staywright() { '${process.execPath}' '${EXECUTABLE}' "$@"; }\n${script}`], options);

const runProgram = (program: string, words: readonly string[], { cwd, stdin = '', env }: RunOptions): Promise<Ran> =>
  new Promise((done, fail) => {
    const child = spawn(program, words, { cwd, env: { ...process.env, NO_COLOR: '1', ...env } });
    const out: Buffer[] = [];
    const err: Buffer[] = [];
    child.stdout.on('data', (chunk: Buffer) => out.push(chunk));
    child.stderr.on('data', (chunk: Buffer) => err.push(chunk));
    child.stdin.on('error', () => {});
    child.stdin.end(stdin);
    child.on('error', fail);
    child.on('close', (code, signal) =>
      done({ code, signal, stdout: Buffer.concat(out).toString('utf8'), stderr: Buffer.concat(err).toString('utf8') }),
    );
  });

/** Gives a new folder to `work` and takes it away afterwards. */
export const inFolder = async <Result>(work: (folder: string) => Promise<Result>): Promise<Result> => {
  const folder = mkdtempSync(join(tmpdir(), 'staywright-test-'));
  try {
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};
