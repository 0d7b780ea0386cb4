import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { withProgress, type ProgressOptions, type ProgressOutput, type Say } from '../../src/cli/progress.ts';
import { inFolder } from '../support/run-staywright.ts';

const WIPE = '\r\u001B[K';

interface Terminal extends ProgressOutput {
  readonly written: string[];
}

const terminal = (columns = 80, env: Readonly<Record<string, string>> = {}, isTTY = true): Terminal => {
  const written: string[] = [];
  const stream = {
    write: (text: string) => written.push(text),
    columns,
    isTTY,
  };
  return { written, stream, env };
};

/** Says each of the words and then takes the time beside it, in milliseconds. */
const doing =
  (...steps: readonly (readonly [words: string, takes: number])[]) =>
  async (say: Say): Promise<string> => {
    for (const [words, takes] of steps) {
      say(words);
      await new Promise((done) => {
        setTimeout(done, takes);
      });
    }
    return 'done';
  };

const run = async (
  output: Terminal,
  work: (say: Say) => Promise<string>,
  options: ProgressOptions = {},
): Promise<string> => {
  const result = withProgress(work, options, output).catch((error: unknown) => `failed: ${String(error)}`);
  await vi.runAllTimersAsync();
  return result;
};

describe('progress', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('shows what long work is doing, on one line that is gone at its end', async () => {
    const output = terminal();
    expect(await run(output, doing(['reading a.png', 700], ['tracing a.png', 900]))).toBe('done');
    expect(output.written).toEqual([`${WIPE}reading a.png ...`, `${WIPE}tracing a.png ...`, WIPE]);
  });

  it('shows its first sign within a second, and not at once', async () => {
    const output = terminal();
    const result = withProgress(doing(['reading a.png', 5000]), {}, output);
    await vi.advanceTimersByTimeAsync(300);
    expect(output.written).toEqual([]);
    await vi.advanceTimersByTimeAsync(600);
    expect(output.written).toEqual([`${WIPE}reading a.png ...`]);
    await vi.runAllTimersAsync();
    await result;
  });

  it('leaves short work silent', async () => {
    const output = terminal();
    expect(await run(output, doing(['reading a.png', 100], ['tracing a.png', 200]))).toBe('done');
    await vi.advanceTimersByTimeAsync(2000);
    expect(output.written).toEqual([]);
  });

  it('says the same words once', async () => {
    const output = terminal();
    await run(output, doing(['reading a.png', 600], ['reading a.png', 600], ['reading a.png', 600]));
    expect(output.written).toEqual([`${WIPE}reading a.png ...`, WIPE]);
  });

  it('takes a terminal that says it has no columns for an ordinary one', async () => {
    const output = terminal(0);
    await run(output, doing(['reading a.png', 600]));
    expect(output.written).toEqual([`${WIPE}reading a.png ...`, WIPE]);
  });

  it('of work that says nothing shows nothing', async () => {
    const output = terminal();
    await run(output, async () => {
      await doing(['', 3000])(() => {});
      return 'done';
    });
    expect(output.written).toEqual([]);
  });

  it('is wiped off before the error of work that fails is told', async () => {
    const output = terminal();
    const result = await run(output, async (say) => {
      await doing(['reading a.png', 800])(say);
      throw new Error('it is damaged');
    });
    expect(result).toBe('failed: Error: it is damaged');
    expect(output.written.at(-1)).toBe(WIPE);
  });

  it.each([
    ['where standard error is no terminal', terminal(80, {}, false), {}],
    ['on a terminal that cannot wipe', terminal(80, { TERM: 'dumb' }), {}],
    ['under --quiet', terminal(), { quiet: true }],
  ])('keeps silent %s', async (_, output, options) => {
    expect(await run(output, doing(['reading a.png', 4000]), options)).toBe('done');
    expect(output.written).toEqual([]);
  });

  it('uses no colour, with NO_COLOR or without', async () => {
    const [one, other] = [terminal(), terminal(80, { NO_COLOR: '1' })];
    for (const output of [one, other]) await run(output, doing(['reading a.png', 700]));
    expect(one.written).toEqual(other.written);
    expect(one.written.join('').replaceAll(WIPE, '')).not.toContain('\u001B');
  });

  it.each([
    ['a long name', 'reading a-very-long-name-of-a-scan.png', 20],
    ['wide letters', 'reading 前身頃前身頃前身頃前身頃.png', 24],
    ['a name with a line break', 'reading a\nb.png', 80],
  ])('never wraps: %s', async (_, words, columns) => {
    const output = terminal(columns);
    await run(output, doing([words, 700]));
    const shown = output.written[0]!.slice(WIPE.length);
    expect(shown).toMatch(/^reading .*$/);
    expect([...shown].reduce((sum, letter) => sum + (letter > '\u2E80' ? 2 : 1), 0)).toBeLessThan(columns);
  });
});

describe('progress of work that keeps the processor to itself', () => {
  it('comes out as soon as it says something', async () => {
    const output = terminal();
    await withProgress(
      async (say) => {
        say('reading a.png');
        const end = performance.now() + 550;
        while (performance.now() < end);
        say('tracing a.png');
        return wait(0);
      },
      {},
      output,
    );
    expect(output.written).toEqual([`${WIPE}tracing a.png ...`, WIPE]);
  });
});

const hasScript = spawnSync('script', ['--version']).status === 0;

describe.skipIf(!hasScript)('on a real terminal', () => {
  it('one line is written over and wiped off', () =>
    inFolder(async (folder) => {
      const outfile = join(folder, 'work.mjs');
      await build({
        stdin: {
          contents: `import { withProgress } from './progress.ts';
            const wait = (ms) => new Promise((done) => setTimeout(done, ms));
            await withProgress(async (say) => { say('reading a.png'); await wait(650); say('tracing a.png'); await wait(50); });
            process.stderr.write('2 panels traced\\n');`,
          resolveDir: fileURLToPath(new URL('../../src/cli', import.meta.url)),
        },
        outfile,
        bundle: true,
        format: 'esm',
        platform: 'node',
      });
      const shown = (term: string): string =>
        spawnSync('script', ['-qec', `'${process.execPath}' '${outfile}'`, '/dev/null'], {
          env: { ...process.env, TERM: term },
          encoding: 'utf8',
        }).stdout;
      expect(shown('xterm')).toBe(`${WIPE}reading a.png ...${WIPE}tracing a.png ...${WIPE}2 panels traced\r\n`);
      expect(shown('dumb')).toBe('2 panels traced\r\n');
    }));
});
