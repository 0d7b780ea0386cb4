/** The real work with the real executable: a scan in, pages out, held against the net panels that the printed sheet was made from. */
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { pathBox, type Box } from '../../src/geometry/box.ts';
import { crossHorizontal } from '../../src/geometry/intersect.ts';
import { offsetOutline } from '../../src/geometry/offset-outline.ts';
import type { Path } from '../../src/geometry/path.ts';
import { distance } from '../../src/geometry/point.ts';
import { transformPath } from '../../src/geometry/transform-path.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { sheetOf } from '../svg/drawn-svg.ts';
import { readPdf } from '../support/read-pdf.ts';
import { runShell, type Ran } from '../support/run-staywright.ts';
import { alignRigidly } from '../support/scans/align-rigidly.ts';
import { nearestOn, samplesOf } from '../support/scans/dense-outline.ts';
import { MARIONETTE, marionetteScan, NET_WIDTHS, NOTCHES } from '../support/scans/marionette-sheet.ts';

const INPUTS = ['scanned-stays.jpg', 'marionette.json'];

const WORK = `set -e
staywright trace scanned-stays.jpg --test-square 50mm --level bust,waist -o traced.svg --preview preview.png --json > trace.json
staywright label traced.svg --line cutting --panels front,side,back --seams cf,side-front,side-back,cb -q |
  staywright strip-allowance --allowance 10mm -o net.svg -q
staywright girth net.svg --json > girth.json
staywright gap net.svg --body marionette.json --json > gap.json
staywright take-in net.svg --seam side-front --above waist --amount 2mm -o fitted.svg -q
staywright walk fitted.svg
staywright add-allowance fitted.svg --allowance 6mm -q | staywright print --paper a4 -o pages.pdf -q`;

const STRAIGHT = 'staywright strip-allowance scanned-stays.jpg --test-square 50mm --allowance 10mm -o straight.svg -q';

let folder = '';
let runs: readonly Ran[] = [];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'staywright-scan-'));
  for (const name of INPUTS) {
    cpSync(fileURLToPath(new URL(`../../examples/${name}`, import.meta.url)), join(folder, name));
  }
  runs = await Promise.all([WORK, STRAIGHT].map((script) => runShell(script, { cwd: folder })));
}, 120_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const text = (file: string): string => readFileSync(join(folder, file), 'utf8');

const json = (file: string): unknown => JSON.parse(text(file));

interface Girths {
  readonly levels: readonly {
    readonly level: string;
    readonly panels: readonly { readonly panel: string; readonly width_mm: number }[];
  }[];
}

const panelsIn = (file: string): readonly Panel[] => sheetOf(text(file)).pattern.panels;

const outlineOf = (edges: readonly Path[]): Path => ({ segments: edges.flatMap(({ segments }) => segments) });

const outlineIn = ({ edges }: Panel): Path => outlineOf(edges.map(({ path }) => path));

/** The farthest of one outline from the other, wherever they lie. */
const farthest = (outline: Path, truth: Path): number => {
  const nearest = nearestOn(truth);
  const laid = transformPath(outline, alignRigidly(samplesOf(outline, 1), nearest));
  const back = nearestOn(laid);
  const off = (at: { x: number; y: number }, from: typeof nearest): number => {
    const { x, y } = from(at.x, at.y);
    return distance(at, { x, y });
  };
  return Math.max(
    ...samplesOf(laid, 0.5).map((p) => off(p, nearest)),
    ...samplesOf(truth, 0.5).map((p) => off(p, back)),
  );
};

describe('a scanned sheet', () => {
  it('goes through every command to the pages', () => {
    expect(runs.map(({ code, stderr }) => [code, stderr])).toEqual([
      [0, ''],
      [0, ''],
    ]);
    expect(runs[0]!.stdout).toContain('Every seam matches within 1.60 mm.');
  });

  it('is traced at the scale at which the scanner worked', () => {
    const { scaleX = 1, scaleY = 1, turn = 0, dpi } = marionetteScan();
    const { scans, panels } = json('trace.json') as {
      scans: { kind: string; scale: Record<string, number> }[];
      panels: Record<string, unknown>[];
    };
    expect(scans).toMatchObject([{ kind: 'line', scale: { from: 'test-square' } }]);
    const { scale } = scans[0]!;
    expect(scale['dpi_x']).toBeCloseTo(dpi * scaleX, 1);
    expect(scale['dpi_y']).toBeCloseTo(dpi * scaleY, 1);
    expect(scale['turn_degrees']).toBeCloseTo(turn, 1);
    const counts = panels.map(({ corners, notches, levels, grain }) => ({ corners, notches, levels, grain }));
    const marks = { corners: 4, levels: ['bust', 'waist'], grain: true };
    expect(counts).toEqual([2, 4, 2].map((notches) => ({ ...marks, notches })));
  });

  it('gives the net panels back', () => {
    const panels = panelsIn('net.svg');
    expect(panels.map(({ name }) => name)).toEqual(MARIONETTE.map(({ name }) => name));
    const off = panels.map((panel, i) => farthest(outlineIn(panel), outlineOf(MARIONETTE[i]!.net)));
    expect(Math.max(...off)).toBeLessThan(0.05);
  });

  it('gives the net widths at bust and waist within 0.05 mm', () => {
    const { levels } = json('girth.json') as Girths;
    expect(levels.map(({ level }) => level)).toEqual(['bust', 'waist']);
    for (const { level, panels } of levels) {
      const off = panels.map(({ width_mm: width }, i) => width - NET_WIDTHS[i]![level as 'bust' | 'waist']);
      expect(Math.max(...off.map(Math.abs))).toBeLessThan(0.05);
    }
  });

  it('gives seams whose two edges are as long as they were drawn, within 0.1 mm', () => {
    const lengths = panelsIn('net.svg').map(({ edges }) => edges.map(({ path }) => pathLength(path)));
    const drawn = MARIONETTE.map(({ net }) => net.map((path) => pathLength(path)));
    const off = lengths.flatMap((edges, i) => edges.map((length, edge) => length - drawn[i]![edge]!));
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(0.1);
    const mates = lengths.slice(1).map((edges, i) => edges[3]! - lengths[i]![1]!);
    expect(Math.max(...mates.map(Math.abs))).toBeLessThan(0.1);
  });

  it('keeps each notch where the net seam has it', () => {
    for (const [i, panel] of panelsIn('net.svg').entries()) {
      const waist = panel.levels.find(({ name }) => name === 'waist')!;
      const { net, seams } = MARIONETTE[i]!;
      const sewn = [net[3]!, net[1]!].flatMap((path, side) =>
        isSewn(seams[side]!) ? [[seams[side]!, path] as const] : [],
      );
      const wanted = sewn.flatMap(([edge, path]) =>
        NOTCHES.map((y) => ({ edge, at: crossHorizontal(path, y)[0]!.point })),
      );
      expect(panel.notches).toHaveLength(wanted.length);
      const off = wanted.map(({ edge, at }) => {
        const there = panel.notches.filter((notch) => notch.edge === edge);
        return Math.min(...there.map((n) => distance(n.at, { x: at.x + waist.fromX, y: at.y + waist.y })));
      });
      expect(Math.max(...off)).toBeLessThan(0.1);
    }
  });

  it('is taken in by what the gap says, at the bust alone', () => {
    const { levels } = json('gap.json') as { levels: { level: string; needs_mm: number }[] };
    expect(levels.map(({ needs_mm: needs }) => needs)).toEqual([expect.closeTo(-8, 0.1), expect.closeTo(0, 0.1)]);
    const [before, after] = ['net.svg', 'fitted.svg'].map((file) => panelsIn(file).map(widthsOf));
    expect(after!.map((widths, i) => widths['bust']! - before![i]!['bust']!)).toEqual(
      [-2, -2, 0].map((change) => expect.closeTo(change, 2)),
    );
    expect(after!.map((widths) => widths['waist'])).toEqual(before!.map((widths) => widths['waist']));
  });

  it('is printed at true size', async () => {
    const { pages } = await readPdf(Uint8Array.from(readFileSync(join(folder, 'pages.pdf'))));
    expect(pages).toHaveLength(2);
    const cut = offsetOutline(MARIONETTE[2]!.net.map((path) => ({ path, distance: 6 })));
    const { width, height } = sizeOf(pathBox(outlineOf(cut)));
    const sizes = pages[1]!.paths.map(({ points }) =>
      sizeOf({
        minX: Math.min(...points.map(({ x }) => x)),
        minY: Math.min(...points.map(({ y }) => y)),
        maxX: Math.max(...points.map(({ x }) => x)),
        maxY: Math.max(...points.map(({ y }) => y)),
      }),
    );
    const off = sizes.map((size) => Math.hypot(size.width - width, size.height - height));
    expect(Math.min(...off)).toBeLessThan(0.1);
  });

  it('is stripped straight away to the same net outlines', () => {
    const straight = panelsIn('straight.svg').map(outlineIn);
    const through = panelsIn('net.svg').map(outlineIn);
    expect(straight).toHaveLength(3);
    const off = straight.map((outline, i) => farthest(outline, through[i]!));
    expect(Math.max(...off)).toBeLessThan(0.01);
  });
});

const isSewn = (seam: string): boolean => seam !== 'cf' && seam !== 'cb';

/** The panel's width at each of its levels. */
const widthsOf = ({ levels }: Panel): Record<string, number> =>
  Object.fromEntries(levels.map(({ name, fromX, toX }) => [name, toX - fromX]));

const sizeOf = ({ minX, minY, maxX, maxY }: Box): { width: number; height: number } => ({
  width: maxX - minX,
  height: maxY - minY,
});
