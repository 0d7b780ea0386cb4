import { describe, expect, it } from 'vitest';
import { pathBox } from '../../src/geometry/box.ts';
import { pathEnd, pathStart } from '../../src/geometry/path.ts';
import type { Area, Scene, Stroke, Words } from '../../src/ink/scene.ts';
import { girthPlotScene } from '../../src/picture/girth-plot.ts';
import { girthAxis } from '../../src/picture/girth-plot-axis.ts';
import type { GirthPlotRow } from '../../src/picture/girth-plot-row.ts';
import { expectSamePicture } from '../support/same-picture.ts';
import { clashes } from '../support/words-apart.ts';

type Units = 'mm' | 'in';

interface Measured {
  readonly level: string;
  readonly y: number;
  readonly body: number;
  readonly pattern: number;
  readonly reduction?: number;
  readonly gapWanted?: number;
  /** How much wider the gap is on the left than on the right. */
  readonly uneven?: number;
}

const rowOf = ({ level, y, body, pattern, reduction = 20, gapWanted = 50, uneven = 0 }: Measured): GirthPlotRow => {
  const gap = body - reduction - pattern;
  const wanted = body - reduction - gapWanted;
  const fromCentre = { left: (gap + uneven) / 2, right: (gap - uneven) / 2 };
  return { level, y, body, wanted, pattern, needs: wanted - pattern, gap, gapWanted, fromCentre };
};

const PLAIN = [
  { level: 'bust', y: -120, body: 899, pattern: 835 },
  { level: 'underbust', y: -60, body: 768, pattern: 700 },
  { level: 'waist', y: 0, body: 700, pattern: 598, reduction: 50 },
  { level: 'high-hip', y: 95, body: 830, pattern: 742 },
].map(rowOf);

const SPAN = { top: -155, bottom: 135 };

const sceneOf = (rows: readonly GirthPlotRow[], units: Units = 'mm', more: object = {}): Scene =>
  girthPlotScene(rows, {
    title: 'Marchetti bodice',
    facts: ['on Ottoline', 'version 01234567'],
    units,
    spans: { left: SPAN, right: SPAN },
    overTenth: [],
    ...more,
  });

const texts = ({ marks }: Scene): string[] =>
  marks.filter((mark): mark is Words => mark.kind === 'words').map(({ text }) => text);

const marksOf = ({ marks }: Scene, of: string): (Stroke | Area)[] =>
  marks.filter((mark): mark is Stroke | Area => mark.kind !== 'words' && mark.of === of);

const middleOf = (scene: Scene, of: string) => {
  const { minX, maxX, minY, maxY } = pathBox(marksOf(scene, of)[0]!.path);
  return { x: (minX + maxX) / 2, y: (minY + maxY) / 2 };
};

describe('the axis of girths', () => {
  it.each([
    { girths: [598, 899], units: 'mm', ticks: [550, 600, 650, 700, 750, 800, 850, 900, 950] },
    { girths: [610, 880], units: 'mm', ticks: [600, 650, 700, 750, 800, 850, 900] },
    { girths: [296, 325], units: 'mm', ticks: [290, 300, 310, 320, 330] },
    { girths: [712], units: 'mm', ticks: [710, 720] },
    { girths: [25.4 * 23.5, 25.4 * 35.4], units: 'in', ticks: [22, 24, 26, 28, 30, 32, 34, 36] },
    { girths: [25.4 * 30, 25.4 * 33], units: 'in', ticks: [29, 30, 31, 32, 33, 34] },
    { girths: [-30, 90], units: 'mm', ticks: [-40, -20, 0, 20, 40, 60, 80, 100] },
  ] as const)('of $girths in $units has lines at $ticks', ({ girths, units, ticks }) => {
    const axis = girthAxis(girths, units, { left: 40, right: 140 });
    expect(axis.ticks.map(({ text }) => Number(text))).toEqual(ticks);
    expect(axis.x(axis.ticks[0]!.mm)).toBeCloseTo(40, 9);
    expect(axis.x(axis.ticks.at(-1)!.mm)).toBeCloseTo(140, 9);
    for (const girth of girths) {
      expect(axis.x(girth)).toBeGreaterThan(40);
      expect(axis.x(girth)).toBeLessThan(140);
    }
  });

  it('holds girths of any size, with few lines', () => {
    for (const units of ['mm', 'in'] as const) {
      for (const most of [700, 2000, 9000, 1e6]) {
        const { ticks } = girthAxis([650, most], units, { left: 0, right: 100 });
        expect(ticks.length).toBeLessThan(11);
        expect(new Set(ticks.map(({ text }) => text)).size).toBe(ticks.length);
      }
    }
  });
});

describe('the girth plot', () => {
  it('sets every point where its girth and its level are', () => {
    const scene = sceneOf(PLAIN);
    const tick = (mm: number): number => pathStart(marksOf(scene, `girth ${mm} mm`)[0]!.path).x;
    const perMm = (tick(900) - tick(600)) / 300;
    const scale = 1 / 2;
    for (const row of PLAIN) {
      for (const what of ['body', 'wanted', 'pattern'] as const) {
        const { x, y } = middleOf(scene, `${what} ${row.level}`);
        expect((x - tick(600)) / perMm + 600).toBeCloseTo(row[what], 3);
        expect((y - middleOf(scene, `${what} waist`).y) / scale).toBeCloseTo(row.y, 6);
      }
    }
    expect(texts(scene)).toEqual(
      expect.arrayContaining([
        'Marchetti bodice',
        'on Ottoline · version 01234567 · scale 1:2',
        'girth in mm, from 550 on',
      ]),
    );
  });

  it('draws three lines that differ in dash and mark, with their figures beside them', () => {
    const scene = sceneOf(PLAIN);
    const [body, wanted, pattern] = ['body', 'wanted', 'pattern'].map((of) => marksOf(scene, of)[0] as Stroke);
    expect(pattern!.style.dash).toBeUndefined();
    expect(body!.style.dash![0]).toBeLessThan(wanted!.style.dash![0]!);
    expect(body!.style.width).toBeLessThan(pattern!.style.width);
    expect(marksOf(scene, 'pattern waist').map(({ kind }) => kind)).toEqual(['area']);
    expect(marksOf(scene, 'body waist').map(({ kind }) => kind)).toEqual(['stroke']);
    expect(marksOf(scene, 'wanted waist')).toHaveLength(2);
    expect(body!.path.segments.every(({ kind }) => kind === 'line')).toBe(true);
    expect(texts(scene)).toEqual(expect.arrayContaining(['899.0', '829.0', '835.0', 'take in 6.0', '44.0']));
    expect(texts(scene)).toEqual(expect.arrayContaining(['700.0', '600.0', '598.0', 'let out 2.0', '52.0']));
  });

  it('draws the laced back at the heights of the plot, each gap at the scale of the page', () => {
    const scene = sceneOf(PLAIN);
    const waist = middleOf(scene, 'pattern waist').y;
    const nodes = (side: string) =>
      (marksOf(scene, `${side} edge`)[0] as Stroke).path.segments.flatMap(({ start, end }) => [start, end]);
    for (const { y, gap } of PLAIN) {
      const at = (side: string): number => nodes(side).find((p) => Math.abs(p.y - waist - y / 2) < 1e-6)!.x;
      expect((at('right') - at('left')) * 2).toBeCloseTo(gap, 6);
    }
    const [top, , bottom] = marksOf(scene, 'left edge, not measured').flatMap(({ path }) => [
      pathStart(path),
      pathEnd(path),
    ]);
    expect((top!.y - waist) * 2).toBeCloseTo(SPAN.top, 6);
    expect((bottom!.y - waist) * 2).toBeCloseTo(95, 6);
  });

  it('marks what is needed from the pattern to what is wanted, and nothing where nothing is', () => {
    const scene = sceneOf([...PLAIN, rowOf({ level: 'hip', y: 120, body: 870, pattern: 800 })]);
    const bar = marksOf(scene, 'needs bust')[0]!.path;
    expect(pathStart(bar).x).toBeCloseTo(middleOf(scene, 'pattern bust').x, 6);
    expect(pathEnd(bar).x).toBeCloseTo(middleOf(scene, 'wanted bust').x, 6);
    expect(marksOf(scene, 'needs hip')).toEqual([]);
    expect(texts(scene)).toContain('nothing');
  });

  it('is the same whatever the order of its levels', () => {
    expect(sceneOf(PLAIN.toReversed())).toEqual(sceneOf(PLAIN));
  });

  it('tells each half where they differ, and one alone where one was looked at', () => {
    const uneven = PLAIN.map((row, at) => ({
      ...row,
      fromCentre: { left: row.gap / 2 + at, right: row.gap / 2 - at },
    }));
    expect(texts(sceneOf(uneven))).toEqual(
      expect.arrayContaining(['22.0', '25.0', '23.0', '28.0', '24.0', '37.0', '31.0']),
    );
    const half = PLAIN.map((row) => ({ ...row, fromCentre: { left: row.gap } }));
    const scene = sceneOf(half, 'mm', { side: 'left' });
    expect(texts(scene)).toContain('left half in mm, from 550 on');
    expect(texts(scene)).not.toContain('right');
    expect(clashes(scene)).toEqual([]);
  });

  it('warns of a reduction over a tenth of the body', () => {
    const warned = texts(sceneOf(PLAIN, 'mm', { overTenth: ['waist'] }));
    expect(warned.some((text) => text.startsWith('The reduction is over a tenth of the body at waist'))).toBe(true);
    expect(texts(sceneOf(PLAIN)).some((text) => text.includes('tenth'))).toBe(false);
  });

  const close = [-6, -4, -2, 0, 2].map((y) => rowOf({ level: `waist${y}mm`, y, body: 700 + y, pattern: 620 }));
  const thirty = Array.from({ length: 30 }, (_, at) =>
    rowOf({ level: `waist+${at}in`, y: 120 - at * 8, body: 700 + at * 7 + (at % 3), pattern: 640 + at * 7 }),
  );
  const long = PLAIN.map((row) => ({ ...row, level: `${row.level}, over the second petticoat, as in the third act` }));
  const closed = PLAIN.map(({ level, y, body }) => rowOf({ level, y, body, pattern: body + 12, uneven: 9 }));
  const halves = PLAIN.map(({ level, y, body, pattern }) => rowOf({ level, y, body, pattern, uneven: 7.3 }));
  const doll = [rowOf({ level: 'waist', y: 0, body: 296, pattern: 280, reduction: 4, gapWanted: 12 })];
  const huge = PLAIN.map(({ level, y, body, pattern }) => rowOf({ level, y, body: body * 3, pattern }));

  it.each([
    ['four levels', PLAIN],
    ['one level', [PLAIN[2]!]],
    ['a doll', doll],
    ['levels very close', close],
    ['thirty levels', thirty],
    ['long names', long],
    ['edges that meet, halves that differ', closed],
    ['halves that differ', halves],
    ['a body three times too large', huge],
  ])('keeps its words apart and everything on its paper: %s', (_, rows) => {
    for (const units of ['mm', 'in'] as const) {
      const scene = sceneOf(rows, units, { overTenth: ['waist'] });
      expect(clashes(scene)).toEqual([]);
      expect(scene.width).toBeLessThan(units === 'mm' ? 345 : 380);
      expect(scene.height).toBeLessThan(260);
      for (const mark of scene.marks) {
        if (mark.kind === 'words') continue;
        const { minX, minY, maxX, maxY } = pathBox(mark.path);
        expect(Math.min(minX, minY)).toBeGreaterThanOrEqual(0);
        expect(maxX).toBeLessThanOrEqual(scene.width);
        expect(maxY).toBeLessThanOrEqual(scene.height);
      }
    }
  });

  it('cuts a long title and long facts to the paper', () => {
    const title = 'A bodice for the second lady in waiting, '.repeat(6);
    const scene = sceneOf(PLAIN, 'mm', { title, facts: [`on ${title}`] });
    expect(clashes(scene)).toEqual([]);
    expect(scene.title).toBe(title);
  });

  it('looks as it did', async () => {
    const rows = PLAIN.map((row, at) => (at === 2 ? rowOf({ ...row, pattern: 670, reduction: 50 }) : row));
    await expect(expectSamePicture('girth-plot', sceneOf(rows, 'in'))).resolves.toBeUndefined();
  });
});
