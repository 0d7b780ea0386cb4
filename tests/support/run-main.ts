import { Readable } from 'node:stream';
import { main } from '../../src/main.ts';
import type { RunOptions } from './run-staywright.ts';

export interface Finished {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

/**
 * Runs a command line in this process, as `bin/staywright.js` would in its own: for tests of what a command says, writes and ends with.
 * Where streams, signals or terminals are what is tested, `runStaywright` runs the real executable. Runs wait for each other.
 */
export const runMain = (words: readonly string[], options: RunOptions = {}): Promise<Finished> => {
  const run = last.then(() => runAlone(words, options));
  last = run.catch(() => {});
  return run;
};

let last: Promise<unknown> = Promise.resolve();

const runAlone = async (words: readonly string[], { cwd, stdin = '', env }: RunOptions): Promise<Finished> => {
  const home = process.cwd();
  const [out, err] = [collector(), collector()];
  const restore = [
    replaced(process, 'stdin', Readable.from(stdin.length === 0 ? [] : [Buffer.from(stdin)])),
    replaced(process, 'stdout', out.stream),
    replaced(process, 'stderr', err.stream),
    replaced(process, 'env', { ...process.env, NO_COLOR: '1', ...env }),
  ];
  try {
    if (cwd !== undefined) process.chdir(cwd);
    return { code: await main(words), stdout: out.text(), stderr: err.text() };
  } finally {
    process.chdir(home);
    for (const back of restore) back();
  }
};

const replaced = (owner: object, name: string, value: unknown): (() => void) => {
  const was = Object.getOwnPropertyDescriptor(owner, name)!;
  Object.defineProperty(owner, name, { value, configurable: true, writable: true, enumerable: true });
  return () => Object.defineProperty(owner, name, was);
};

/** As much of a stream as a command line writes to. */
const collector = () => {
  const chunks: Buffer[] = [];
  const stream = {
    on: () => stream,
    write: (content: Uint8Array | string, done: () => void) => {
      chunks.push(Buffer.from(content as string));
      done();
    },
  };
  return { stream, text: () => Buffer.concat(chunks).toString('utf8') };
};
