import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export interface DemoRun {
  /** Where the run left its files. */
  readonly folder: string;
  /** What the scripts printed on standard output. */
  readonly printed: string;
  /** What the commands said about their work on standard error. */
  readonly said: string;
  /** Every file the run left, by name. */
  readonly files: ReadonlyMap<string, Buffer>;
  text(name: string): string;
}

/** Runs the example's scripts through the built executable, into an empty temporary folder. */
export const demoRun = (): DemoRun => runInto(emptyFolder(), ['run-all']);

/** Runs some of the scripts once more, on a copy of what a whole run left. */
export const runAgain = (whole: DemoRun, scripts: readonly string[]): DemoRun => {
  const out = emptyFolder();
  cpSync(whole.folder, out, { recursive: true });
  return runInto(out, scripts);
};

const emptyFolder = (): string => mkdtempSync(join(tmpdir(), 'staywright-demo-'));

const runInto = (out: string, scripts: readonly string[]): DemoRun => {
  const { STAYWRIGHT: _, ...env } = process.env;
  const runs = scripts.map((name) => {
    const script = fileURLToPath(new URL(`../../examples/${name}.sh`, import.meta.url));
    const { status, stdout, stderr } = spawnSync('sh', [script], { env: { ...env, OUT: out }, encoding: 'utf8' });
    if (status === 0) return { stdout, stderr };
    throw new Error(`${name} in ${out} ended with ${String(status)}\n${stdout}\n${stderr}`);
  });
  const [stdout, stderr] = [
    runs
      .map((one) => one.stdout)
      .join('')
      .replaceAll(out, '$out'),
    runs.map((one) => one.stderr).join(''),
  ];
  const files = new Map(readdirSync(out).map((name) => [name, readFileSync(join(out, name))]));
  const text = (name: string): string => {
    const bytes = files.get(name);
    if (bytes === undefined) throw new Error(`the run left no ${name}: ${[...files.keys()].join(', ')}`);
    return bytes.toString('utf8');
  };
  return { folder: out, printed: stdout, said: stderr, files, text };
};
