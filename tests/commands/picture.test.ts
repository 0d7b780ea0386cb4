import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { boxPattern } from '../support/box-pattern.ts';
import { runScript } from '../support/run-script.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

const folder = mkdtempSync(join(tmpdir(), 'staywright-test-'));

const run = (script: string) => runScript(script, { cwd: folder });

beforeAll(async () => {
  cpSync(INPUTS, folder, { recursive: true });
  await run('staywright split-sides net.svg -q -o both.svg');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Level {
  readonly level: string;
  readonly girth_mm?: number;
  readonly panels: readonly { readonly panel: string; readonly width_mm: number }[];
}

describe('picture', () => {
  it('tells with --json the widths, girths and lengths that it draws', async () => {
    const { stdout } = await run('staywright picture net.svg --json -o panels.svg');
    const report = JSON.parse(stdout) as {
      name: string;
      panels: number;
      levels: Level[];
      seams: { seam: string; edges: { panel: string; length_mm: number }[] }[];
      hash: string;
    };
    const girths = JSON.parse((await run('staywright girth net.svg --json')).stdout) as { levels: Level[] };
    for (const { level, girth_mm: girth, panels } of girths.levels) {
      expect(report.levels.find((row) => row.level === level)).toEqual({ level, girth_mm: girth, panels });
    }
    expect(report.panels).toBe(3);
    expect(report.seams.map(({ seam, edges }) => [seam, ...edges.map(({ panel }) => panel)])).toEqual([
      ['cf', 'front'],
      ['front-side', 'front', 'side'],
      ['side-back', 'side', 'back'],
      ['cb', 'back'],
    ]);
    const walk = JSON.parse((await run('staywright walk net.svg --json')).stdout) as {
      seams: { seam: string; edges: { panel: string; whole_mm: number }[] }[];
    };
    const walked = walk.seams.flatMap(({ edges }) => edges.map(({ panel, whole_mm: mm }) => [panel, mm]));
    const drawn = report.seams.filter(({ edges }) => edges.length === 2);
    expect(drawn.flatMap(({ edges }) => edges.map(({ panel, length_mm: mm }) => [panel, mm]))).toEqual(walked);
    expect(report.hash).toMatch(/^[0-9a-f]{16,}$/);
    expect(readFileSync(join(folder, 'panels.svg'), 'utf8')).toContain(`version ${report.hash.slice(0, 8)}`);
  });

  it('tells no girth of panels that still carry their allowance', async () => {
    const { stdout } = await run('staywright picture cut.svg --json -o cut-panels.svg');
    const { levels } = JSON.parse(stdout) as { levels: Level[] };
    expect(levels.length).toBeGreaterThan(0);
    for (const level of levels) expect(Object.keys(level)).toEqual(['level', 'panels']);
  });

  it.each(['--body waist=400mm', '--reduction 1in', '--gap 2in'])(
    'refuses %s where no body is drawn',
    async (words) => {
      const { code, stderr } = await run(`staywright picture net.svg ${words} -o no.svg`);
      expect(code).toBe(2);
      expect(stderr).toBe(
        `staywright picture: ${words.split(' ')[0]}: is for the girth plot alone\n  hint: add --girth-plot\n`,
      );
      expect(existsSync(join(folder, 'no.svg'))).toBe(false);
    },
  );
});

describe('picture --girth-plot', () => {
  it('ends with what gap ends with, and finds what it finds', async () => {
    const gap = await run('staywright gap net.svg --body body.json');
    const plot = await run('staywright picture --girth-plot net.svg --body body.json -o plot.svg');
    const last = gap.stdout.trimEnd().split('\n').at(-1)!;
    expect(last).toMatch(/^Needed round the body: bust /);
    expect(plot.stderr.trimEnd().split('\n').at(-1)).toBe(last);
    expect(gap.stderr).toContain('over a tenth of the body');
    expect(plot.stderr).toContain(gap.stderr);
  });

  it('tells with --json the girths that it draws, as gap does', async () => {
    const body = '--body body.json --reduction waist=30mm --gap 40mm --json';
    const gap = JSON.parse((await run(`staywright gap net.svg ${body}`)).stdout) as {
      levels: Record<string, unknown>[];
    };
    const { stdout } = await run(`staywright picture --girth-plot net.svg ${body} -o figures.svg`);
    const { findings: _, hash, ...report } = JSON.parse(stdout) as Record<string, unknown>;
    const keys = ['level', 'body_mm', 'wanted_girth_mm', 'pattern_girth_mm', 'predicted_gap_mm'];
    expect(report).toEqual({
      name: 'drawn',
      levels: gap.levels.map((row) => Object.fromEntries(keys.map((key) => [key, row[key]]))),
    });
    expect(hash).toMatch(/^[0-9a-f]{16,}$/);
  });

  it('names the body where a file does, and leaves out what the pattern lacks with a note', async () => {
    const named = await run('staywright picture --girth-plot net.svg --body body.json');
    expect(named.stdout).toContain('>on Ottoline (invented) · version ');
    expect(named.stdout).toContain('The reduction is over a tenth of the body at waist');
    const other = await run('staywright picture --girth-plot net.svg --body other-body.json');
    expect(other.stdout).toContain('>on Odile, understudy · version ');
    expect(other.stdout).not.toContain('hipp');
    expect(other.stderr).toContain('note: hipp:');
    const typed = await run('staywright picture --girth-plot net.svg --body waist=400mm');
    expect(typed.stdout).toMatch(/>version [0-9a-f]{8} · scale 1:\d+</);
  });

  it('draws halves at their own distances, and with --side one of them', async () => {
    const body = '--body waist=190mm:215mm,bust=500mm --units mm';
    const both = await run(`staywright picture --girth-plot both.svg ${body}`);
    expect(both.stdout).toContain('data-of="left edge"');
    expect(both.stdout).toContain('data-of="right edge"');
    const left = await run(`staywright picture --girth-plot --side left both.svg ${body}`);
    expect(left.stdout).toContain('left half in mm, from ');
    expect(left.stdout).not.toContain('right edge');
    expect(left.stderr).toContain('Needed round the left half: ');
  });

  it('is the same in bytes for the same sheet and body, and follows the pattern through a pipe', async () => {
    const draw = 'staywright picture --girth-plot --body body.json -q';
    const [one, two] = [await run(`${draw} net.svg`), await run(`cat net.svg | ${draw}`)];
    expect(one.stdout).toBe(two.stdout);
    const taken = await run(`staywright take-in net.svg --seam cb --amount 6mm -q | ${draw}`);
    expect(taken.code).toBe(0);
    expect(taken.stdout).not.toBe(one.stdout);
  });

  it('draws the back of a pattern of one panel from the top of its laced edge to the bottom, whatever that is called', async () => {
    const [panel] = boxPattern(1).panels;
    for (const back of ['cb', 'lacing']) {
      const edges = panel!.edges.map((edge) => (edge.name === 'cb' ? { ...edge, name: back } : edge));
      const pattern = { ...boxPattern(1), panels: [{ ...panel!, edges, notches: [] }] };
      writeFileSync(join(folder, 'one.svg'), writeSheet({ pattern, record: [] }));
      const { stdout } = await run('staywright picture --girth-plot one.svg --body waist=230mm --gap 50mm -q');
      const scale = 1 / Number(/scale 1:(\d+)/.exec(stdout)![1]);
      const [, x = '', top, bottom] =
        /data-of="left edge, not measured"[^>]* d="M ([\d.]+),([\d.]+)[^"]* L [\d.]+,([\d.]+)"/.exec(stdout)!;
      const right = /data-of="right edge, not measured"[^>]* d="M ([\d.]+),/.exec(stdout)![1];
      expect((Number(bottom) - Number(top)) / scale).toBeCloseTo(360, 1);
      expect((Number(right) - Number(x)) / scale).toBeCloseTo(230 - 2 * 80, 1);
    }
  });

  it('writes PDF by the name of the file', async () => {
    const { code } = await run('staywright picture --girth-plot net.svg --body body.json -q -o plot.pdf');
    expect(code).toBe(0);
    expect(readFileSync(join(folder, 'plot.pdf'), 'latin1').slice(0, 5)).toBe('%PDF-');
  });

  it.each([
    ['', 'whose body?'],
    ['--body waist=400', "'400'"],
    ['--body wast=400mm', 'wast'],
    ['--body hem=400mm --gap waist=2in', 'the body has no girth at waist'],
    ['--body none.json', 'none.json'],
  ])('refuses as gap does: %s', async (words, says) => {
    const { code, stderr } = await run(`staywright picture --girth-plot net.svg ${words} -o no.svg`);
    const gap = await run(`staywright gap net.svg ${words}`);
    expect(code).toBe(2);
    expect(stderr).toContain(says);
    expect(stderr.replace('staywright picture', 'staywright gap')).toBe(gap.stderr);
    expect(existsSync(join(folder, 'no.svg'))).toBe(false);
  });

  it('refuses panels that still carry their allowance', async () => {
    const { code, stderr } = await run('staywright picture --girth-plot cut.svg --body body.json -o no.svg');
    expect(code).toBe(2);
    expect(stderr).toContain('still carry seam allowance');
  });

  it('has its examples within 80 columns, one of them a pipe', async () => {
    const { stdout } = await run('staywright picture --help');
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    expect(stdout).toMatch(/\|\n\s+staywright picture --girth-plot/);
  });
});
