import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { halfPattern } from '../support/half-pattern.ts';
import { paperNamed } from '../../src/print/paper-size.ts';
import { printPattern } from '../../src/print/print-pattern.ts';

// The page as other programs see it: poppler draws it and qpdf checks it, where they are installed.
const has = (program: string): boolean => spawnSync(program, ['--help']).error === undefined;
const DPI = 600;

let folder = '';
let file = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'printed-page-'));
  file = join(folder, 'print.pdf');
  const bytes = await printPattern(halfPattern(), {
    paper: paperNamed('a4'),
    margin: 10,
    overlap: 10,
    hash: 'c0ffee5ad1',
    changes: [],
    version: '1.2.3',
    title: 'Корсет 試作',
  });
  writeFileSync(file, bytes);
});

afterAll(() => rmSync(folder, { recursive: true }));

/** Columns (or rows) of dark runs along one line of a grey picture: the middle of each run, in millimetres. */
const darkRuns = (values: readonly number[]): number[] => {
  const runs: number[] = [];
  let start = -1;
  values.forEach((value, index) => {
    const dark = value < 128;
    if (dark && start < 0) start = index;
    if (!dark && start >= 0) {
      runs.push(((start + index) / 2 / DPI) * 25.4);
      start = -1;
    }
  });
  return runs;
};

/** A binary PGM picture: grey values row by row. */
const readPgm = (path: string): { width: number; height: number; at: (x: number, y: number) => number } => {
  const bytes = readFileSync(path);
  const header = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString('latin1'))!;
  const [width, height] = [Number(header[1]), Number(header[2])];
  return { width, height, at: (x, y) => bytes[header[0].length + y * width + x]! };
};

describe('a printed page in other hands', () => {
  it.runIf(has('pdftoppm'))(
    'shows the 50 mm square 50 mm and the 2 in square 50.8 mm wide and high when poppler draws it',
    () => {
      execFileSync('pdftoppm', [
        '-r',
        String(DPI),
        '-gray',
        '-f',
        '1',
        '-l',
        '1',
        '-singlefile',
        file,
        join(folder, 'page'),
      ]);
      const picture = readPgm(join(folder, 'page.pgm'));
      // A line through both squares below their words, and one down through each beside its words.
      const rowAt = Math.round((76 / 25.4) * DPI);
      const across = darkRuns(Array.from({ length: picture.width }, (_, x) => picture.at(x, rowAt))).slice(0, 4);
      expect(across[1]! - across[0]!).toBeCloseTo(50, 1);
      expect(across[3]! - across[2]!).toBeCloseTo(50.8, 1);
      for (const [left, side] of [
        [across[0]!, 50],
        [across[2]!, 50.8],
      ] as const) {
        const column = Math.round(((left + 3) / 25.4) * DPI);
        const down = darkRuns(Array.from({ length: picture.height }, (_, y) => picture.at(column, y)));
        const pairs = down.flatMap((top) => down.map((bottom) => bottom - top));
        expect(pairs.some((height) => Math.abs(height - side) < 0.05)).toBe(true);
      }
    },
  );

  it.runIf(has('pdfinfo'))('has the media box of its paper, exact, and no other box', () => {
    const report = execFileSync('pdfinfo', ['-box', '-f', '1', '-l', '2', file], { encoding: 'utf8' });
    expect(report).toMatch(/Page +1 size: +595\.276 x 841\.89 pts \(A4\)/);
    for (const box of report.matchAll(/(Media|Crop|Trim|Art|Bleed)Box: +0\.00 +0\.00 +(\S+) +(\S+)/g)) {
      expect([box[2], box[3]].toSorted()).toEqual(['595.28', '841.89']);
    }
    expect(report).toMatch(/Producer: +Staywright 1\.2\.3/);
  });

  it.runIf(has('pdftotext'))('gives back names in any script when its text is taken out', () => {
    const text = execFileSync('pdftotext', [file, '-'], { encoding: 'utf8' });
    expect(text).toMatch(/Корсет\s+試作/);
  });

  it.runIf(has('qpdf'))('has no fault that qpdf finds', () => {
    const report = execFileSync('qpdf', ['--check', file], { encoding: 'utf8' });
    expect(report).toContain('No syntax or stream encoding errors found');
  });
});
