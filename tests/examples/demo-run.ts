import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync } from 'node:fs';
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
export const demoRun = (): DemoRun => {
  const out = mkdtempSync(join(tmpdir(), 'staywright-demo-'));
  const script = fileURLToPath(new URL('../../examples/run-all.sh', import.meta.url));
  const { STAYWRIGHT: _, ...env } = process.env;
  const { status, stdout, stderr } = spawnSync('sh', [script], { env: { ...env, OUT: out }, encoding: 'utf8' });
  if (status !== 0) throw new Error(`the run in ${out} ended with ${String(status)}\n${stdout}\n${stderr}`);
  const files = new Map(readdirSync(out).map((name) => [name, readFileSync(join(out, name))]));
  const text = (name: string): string => {
    const bytes = files.get(name);
    if (bytes === undefined) throw new Error(`the run left no ${name}: ${[...files.keys()].join(', ')}`);
    return bytes.toString('utf8');
  };
  return { folder: out, printed: stdout, said: stderr, files, text };
};
