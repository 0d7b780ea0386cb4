import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { wideSheet } from '../../tests/support/scans/cases.ts';
import { encodeScan } from '../../tests/support/scans/encode-scan.ts';
import { makeScan } from '../../tests/support/scans/make-scan.ts';
import { globalLevel } from './global-level.ts';
import { measureParts } from './parts.ts';
import { hasPotrace } from './potrace.ts';

const ROUNDS = 3;
/** Pictures of this size take minutes to make, so they are kept between runs. */
const kept = join(process.cwd(), 'build/bench-scans');
const tool = join(process.cwd(), 'bin/staywright.js');
const TIME = '/usr/bin/time';

interface Cost {
  readonly seconds: number;
  /** Of the processor: what is waited for others is not in it. */
  readonly busy: number;
  readonly megabytes: number;
}

/** An A3 sheet of lines at 300 and 600 dpi, traced by the real executable, beside potrace on the same picture; then where our time goes. */
export const measureSpeed = async (): Promise<void> => {
  if (!existsSync(TIME)) {
    console.log(`${TIME} is not installed: speed and memory are left out`);
    return;
  }
  mkdirSync(kept, { recursive: true });
  const rows: [name: string, cost: Cost][] = [];
  const files: [title: string, file: string][] = [];
  for (const dpi of [300, 600]) {
    const { png, jpeg, pgm, level } = await a3(dpi);
    files.push([`${dpi} dpi`, png]);
    const out = join(kept, 'out.svg');
    const ours = (file: string): Cost =>
      costOf(process.execPath, [tool, 'trace', file, '--test-square', '50mm', '-o', out, '--force', '--quiet']);
    rows.push([`${dpi} dpi, staywright, PNG`, ours(png)], [`${dpi} dpi, staywright, JPEG`, ours(jpeg)]);
    if (hasPotrace()) {
      const cutoff = String(level / 255);
      const words = ['--blacklevel', cutoff, '--turdsize', '20', '--backend', 'svg', '--output', out, pgm];
      rows.push([`${dpi} dpi, potrace, PGM`, costOf('potrace', words)]);
    }
    rmSync(out, { force: true });
  }
  console.log('A3 sheet of five panels         s    busy s      MB   (least of 3)');
  for (const [name, { seconds, busy, megabytes }] of rows) {
    console.log(
      name.padEnd(26) +
        seconds.toFixed(2).padStart(7) +
        busy.toFixed(2).padStart(10) +
        megabytes.toFixed(0).padStart(8),
    );
  }
  for (const [title, file] of files) await measureParts(file, title);
  console.log('');
};

const costOf = (program: string, words: readonly string[]): Cost => {
  const costs = Array.from({ length: ROUNDS }, (): Cost => {
    const run = spawnSync(TIME, ['-f', '%e %U %S %M', program, ...words], { encoding: 'utf8' });
    if (run.status !== 0) throw new Error(`${program} ${words.join(' ')}\n${run.stderr}`);
    const [seconds, user, system, kilobytes] = run.stderr.trim().split('\n').at(-1)!.split(' ').map(Number);
    return { seconds: seconds!, busy: user! + system!, megabytes: kilobytes! / 1024 };
  });
  const least = (of: (cost: Cost) => number): number => Math.min(...costs.map(of));
  return { seconds: least((c) => c.seconds), busy: least((c) => c.busy), megabytes: least((c) => c.megabytes) };
};

/** The sheet as files, made once, and the level that tells its ink from its paper. */
const a3 = async (dpi: number): Promise<{ png: string; jpeg: string; pgm: string; level: number }> => {
  const [png, jpeg, pgm] = ['png', 'jpg', 'pgm'].map((ending) => join(kept, `a3-${dpi}.${ending}`)) as [
    string,
    string,
    string,
  ];
  if (![png, jpeg, pgm].every((file) => existsSync(file))) {
    console.log(`making the A3 sheet at ${dpi} dpi ...`);
    const scanner = { turn: 0.7, shear: 0.002, scaleX: 1.012, scaleY: 0.993, noise: 2, dust: 4, seed: 11 };
    const lamp = { slope: 0.1, vignette: 0.05 };
    const { picture } = await makeScan({ kind: 'line', dpi, ...wideSheet(), ...scanner, lamp });
    writeFileSync(pgm, Buffer.concat([Buffer.from(`P5\n${picture.width} ${picture.height}\n255\n`), picture.grey]));
    writeFileSync(jpeg, await encodeScan(picture, 'jpeg', { density: dpi }));
    writeFileSync(png, await encodeScan(picture, 'png', { density: dpi }));
  }
  const grey = readFileSync(pgm);
  return { png, jpeg, pgm, level: globalLevel({ width: grey.length, height: 1, grey }) };
};
