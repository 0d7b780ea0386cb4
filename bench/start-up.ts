/**
 * Start-up of the real executable against an empty Node script, and a pipe of 12 commands on 12 panels.
 * Peers run in turn, many times; the table prints the least and the median, and the ratio of the least.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { boxPattern } from '../tests/support/box-pattern.ts';
import { writeSheet } from '../src/svg/write-sheet.ts';

const ROUNDS = 25;
const tool = join(process.cwd(), 'bin/staywright.js');
const room = mkdtempSync(join(tmpdir(), 'staywright-bench-'));

const empty = join(room, 'empty.mjs');
const sheet = join(room, 'twelve.svg');
writeFileSync(empty, '');
writeFileSync(sheet, writeSheet({ pattern: boxPattern(12), record: [] }));

const node = (...words: string[]) => {
  const run = spawnSync(process.execPath, words, { encoding: 'utf8' });
  if (run.status !== 0) throw new Error(`${words.join(' ')}\n${run.stderr}`);
};

const takeIn = ['take-in', '--seam', 'seam-5', '--amount', '3mm', '--above', 'waist', '--quiet'];
const letOut = ['let-out', '--seam', 'seam-5', '--amount', '3mm', '--above', 'waist', '--quiet'];
const pipeOf = (commands: readonly (readonly string[])[]): string =>
  commands
    .map((words, at) => `'${process.execPath}' '${tool}' ${words.join(' ')} ${at === 0 ? `'${sheet}'` : ''}`)
    .join(' | ');
const twelve = pipeOf(Array.from({ length: 12 }, (_, at) => (at % 2 === 0 ? takeIn : letOut)));

const peers: [name: string, run: () => void][] = [
  ['an empty Node script', () => node(empty)],
  ['--version', () => node(tool, '--version')],
  ['--help', () => node(tool, '--help')],
  ['take-in --help', () => node(tool, 'take-in', '--help')],
  ['girth, 12 panels', () => node(tool, 'girth', sheet, '--quiet')],
  ['take-in, 12 panels', () => node(tool, ...takeIn, sheet, '-o', join(room, 'out.svg'), '--force')],
  [
    '12 commands piped, 12 panels',
    () => {
      const run = spawnSync('sh', ['-c', `set -e; ${twelve} > '${join(room, 'piped.svg')}'`], { encoding: 'utf8' });
      if (run.status !== 0) throw new Error(run.stderr);
    },
  ],
];

const times = peers.map((): number[] => []);
for (let round = 0; round < ROUNDS; round++) {
  peers.forEach(([, run], at) => {
    const began = performance.now();
    run();
    times[at]!.push(performance.now() - began);
  });
}
rmSync(room, { recursive: true, force: true });

const least = times.map((list) => Math.min(...list));
const median = times.map((list) => list.toSorted((a, b) => a - b)[Math.floor(list.length / 2)]!);
console.log('what                             least ms   median ms   times the empty script');
peers.forEach(([name], at) => {
  const figures = [least[at]!.toFixed(1).padStart(9), median[at]!.toFixed(1).padStart(11)];
  console.log(`${name.padEnd(32)}${figures.join(' ')}   ${(least[at]! / least[0]!).toFixed(2).padStart(8)}`);
});
