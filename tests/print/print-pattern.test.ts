import { createHash } from 'node:crypto';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addAllowance } from '../../src/alterations/add-allowance.ts';
import { evaluatedPoints } from '../support/evaluated-points.ts';
import { halfPattern } from '../support/half-pattern.ts';
import { withGrain } from '../support/with-grain.ts';
import { readPdf, type DrawnPath, type Place, type ReadDocument } from '../support/read-pdf.ts';
import { layoutPages } from '../../src/print/layout-pages.ts';
import { onSheet, type PageLayout } from '../../src/print/page-layout.ts';
import { panelShape } from '../../src/print/panel-shape.ts';
import { paperNamed } from '../../src/print/paper-size.ts';
import type { PrintOptions } from '../../src/print/print-options.ts';
import { printPattern } from '../../src/print/print-pattern.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';

const options = (paper: string, more: Partial<PrintOptions> = {}): PrintOptions => ({
  paper: paperNamed(paper),
  margin: 10,
  overlap: 10,
  hash: 'c0ffee5ad1',
  changes: ['strip-allowance --allowance 15mm', 'take-in --seam cb --amount 6mm'],
  version: '1.2.3',
  title: 'Marchetti bodice',
  ...more,
});

const SMALLEST = '80x80mm';

const PAPERS = [
  'a4',
  'letter',
  'legal',
  'a3',
  'tabloid',
  'a2',
  'a1',
  'a0',
  'roll:914mm',
  'roll:12in',
  '300x500mm',
  '13x19in',
  '100x150mm',
  SMALLEST,
];

const sides = ({ points }: DrawnPath): number[] =>
  points.slice(1).map((p, index) => Math.hypot(p.x - points[index]!.x, p.y - points[index]!.y));

const isSquare = (path: DrawnPath, side: number): boolean =>
  path.closed &&
  path.points.length >= 4 &&
  sides(path)
    .slice(0, 3)
    .every((length) => Math.abs(length - side) < 0.2);

const layoutOf = (pattern: Pattern, given: PrintOptions): PageLayout =>
  layoutPages(
    pattern.panels.map((panel) => ({ outline: panelShape(panel) })),
    given,
  );

const toLine = (p: Place, a: Place, b: Place): number => {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const along = ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy || 1);
  const t = Math.max(0, Math.min(1, along));
  return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
};

const nearest = (p: Place, runs: readonly (readonly Place[])[]): number =>
  Math.min(...runs.flatMap((run) => run.slice(1).map((q, index) => toLine(p, run[index]!, q))));

const prints = new Map<string, Promise<ReadDocument>>();

/** The half pattern on that paper, printed and read back once for all tests. */
const printed = (paper: string): Promise<ReadDocument> => {
  const known = prints.get(paper) ?? printPattern(halfPattern(), options(paper)).then(readPdf);
  prints.set(paper, known);
  return known;
};

const digest = async (more: Partial<PrintOptions>): Promise<string> =>
  createHash('sha256')
    .update(await printPattern(halfPattern(), options('a4', more)))
    .digest('hex');

const changesOf = (count: number): string[] =>
  Array.from({ length: count }, (_, at) => `let-out --seam side --amount ${at + 1}mm`);

describe('a printed pattern', () => {
  it.each(PAPERS.filter((paper) => paper !== SMALLEST))(
    'has test squares of 50.00 mm and 2.000 in on the first page of %s',
    async (paper) => {
      const { pages } = await printed(paper);
      for (const side of [50, 50.8]) {
        const squares = pages[0]!.paths.filter((path) => isSquare(path, side));
        expect(squares).toHaveLength(1);
        for (const length of sides(squares[0]!).slice(0, 3)) expect(Math.abs(length - side)).toBeLessThan(0.0005);
      }
      expect(pages[0]!.text).toContain('50 mm');
      expect(pages[0]!.text).toContain('2 in');
    },
  );

  it('has its test squares on the first two pages where one page cannot hold both', async () => {
    const { pages } = await printed(SMALLEST);
    expect(pages[0]!.paths.filter((path) => isSquare(path, 50))).toHaveLength(1);
    expect(pages[1]!.paths.filter((path) => isSquare(path, 50.8))).toHaveLength(1);
  });

  it('tells a reader not to scale it, and names its maker', async () => {
    const { preferences, info } = await printed('a4');
    expect(preferences['PrintScaling']).toBe('None');
    expect(info['Producer']).toBe('Staywright 1.2.3');
    expect(info['Title']).toBe('Marchetti bodice');
    expect(info['CreationDate']).toBeUndefined();
  });

  it.each(PAPERS.filter((name) => !name.startsWith('roll')))('has pages of exactly the size of %s', async (name) => {
    const { pages } = await printed(name);
    const { width, height } = paperNamed(name);
    for (const page of pages) {
      expect(Math.min(page.width, page.height)).toBeCloseTo(Math.min(width, height), 8);
      expect(Math.max(page.width, page.height)).toBeCloseTo(Math.max(width, height), 8);
    }
  });

  it.each(['roll:914mm', 'roll:12in'])('has pages as wide as %s and no longer than they must be', async (name) => {
    const { pages } = await printed(name);
    for (const page of pages) {
      expect(page.width).toBeCloseTo(paperNamed(name).width, 8);
      expect(page.height).toBeLessThan(2000);
    }
  });

  it.each(['a4', 'letter', 'a3', 'roll:12in', '100x150mm'])(
    'shows every point of every outline on %s, continuous across pages to 0.01 mm',
    async (paper) => {
      const pattern = halfPattern();
      const given = options(paper);
      const layout = layoutOf(pattern, given);
      const { pages } = await printed(paper);
      const tiles = layout.sheets.flatMap((sheet, at) => sheet.tiles.map((tile) => ({ tile, sheet: at })));
      const first = layout.notesOnFirstTile ? 0 : pages.length - tiles.length;
      layout.sheets.forEach((sheet, at) => {
        const truth = sheet.placements.flatMap((placement) =>
          evaluatedPoints(pattern.panels[placement.piece]!, 16).map((p) => onSheet(placement, p)),
        );
        const shown = new Set<Place>();
        tiles.forEach(({ tile, sheet: of }, index) => {
          if (of !== at) return;
          const inFrame = (p: Place): boolean =>
            p.x >= tile.x && p.x <= tile.x + tile.width && p.y >= tile.y && p.y <= tile.y + tile.height;
          const outlines = pages[first + index]!.paths.filter(
            (path) => path.depth === 1 && path.lineWidth === 0.35 && path.dash.length !== 4,
          );
          const drawn = outlines.map(({ points }) =>
            points.map((p) => ({ x: p.x - 10 + tile.x, y: p.y - 10 + tile.y })),
          );
          for (const p of truth.filter(inFrame)) {
            expect(nearest(p, drawn)).toBeLessThan(0.01);
            shown.add(p);
          }
        });
        expect(shown.size).toBe(truth.length);
      });
    },
  );

  it.each(PAPERS)('has no page of %s without a part of a panel, save the notes', async (paper) => {
    const pattern = halfPattern();
    const layout = layoutOf(pattern, options(paper));
    const { pages } = await printed(paper);
    const count = layout.sheets.reduce((sum, sheet) => sum + sheet.tiles.length, 0);
    const tilePages = layout.notesOnFirstTile ? pages.slice(1, count) : pages.slice(pages.length - count);
    const blank = tilePages.filter(({ paths, width, height }) => {
      const inside = ({ x, y }: Place): boolean => x >= 10 && x <= width - 10 && y >= 10 && y <= height - 10;
      return !paths.some((path) => path.depth === 1 && path.points.some(inside));
    });
    expect(blank).toEqual([]);
  });

  it('comes out in the same bytes every time, and in others when anything differs', async () => {
    const first = await digest({});
    expect(await digest({})).toBe(first);
    expect(await digest({ hash: 'other' })).not.toBe(first);
    const dated = await digest({ date: new Date(86_400_000) });
    expect(dated).not.toBe(first);
    expect(await digest({ date: new Date(86_400_000) })).toBe(dated);
  });

  it('says on each panel what it is, how often it is cut, and which seam each edge belongs to', async () => {
    const pattern = halfPattern();
    const { pages } = await printed('a0');
    const { text } = pages[0]!;
    for (const panel of pattern.panels) {
      expect(text).toContain(panel.name);
      for (const edge of panel.edges) expect(text).toContain(edge.name);
      for (const level of panel.levels) expect(text).toContain(level.name);
    }
    expect(text.match(/cut 2, mirrored/g)).toHaveLength(6);
    expect(text).toContain('net, no seam allowance');
    const single = await readPdf(await printPattern({ ...pattern, pieces: 'single' }, options('a0')));
    expect(single.pages[0]!.text).toContain('cut 1');
    expect(single.pages[0]!.text).not.toContain('mirrored');
  });

  it.each(['a4', 'letter'])(
    'shows all changes, the version and the cautions on the first page of %s',
    async (paper) => {
      const label = `label --panels ${'front,side,back,'.repeat(8)} --name 'the last words of it'`;
      const changes = [label, ...changesOf(8)];
      const { pages } = await readPdf(await printPattern(halfPattern(), options(paper, { changes })));
      const text = pages[0]!.text.replaceAll(/\s+/g, ' ');
      expect(text).toContain('the last words of it');
      for (const at of [1, 2, 3, 4, 5, 6, 7, 8])
        expect(text).toContain(`${at + 1}. let-out --seam side --amount ${at}mm`);
      expect(text).toContain('c0ffee5ad1');
      expect(text).toMatch(/licensed clinician/);
      expect(text).toMatch(/a tenth/);
    },
  );

  it('shows only the last of very many changes, and says of how many', async () => {
    const { pages } = await readPdf(await printPattern(halfPattern(), options('a4', { changes: changesOf(60) })));
    const { text } = pages[0]!;
    expect(text).toContain('Last of 60 changes');
    expect(text).toContain('--amount 60mm');
    expect(text).toContain('--amount 55mm');
    expect(text).not.toContain('--amount 1mm');
    expect(text).toMatch(/licensed clinician/);
  });

  it('names in its key only the lines that are drawn, and no row of a page that stands alone', async () => {
    const [first] = withGrain(halfPattern()).panels;
    const plain = { ...halfPattern(), panels: [{ ...first!, bones: [] }] };
    const roll = (await readPdf(await printPattern(plain, options('roll:914mm')))).pages;
    expect(roll).toHaveLength(1);
    for (const name of ['stitching line', 'waist', 'grain', 'notch']) expect(roll[0]!.text).toContain(name);
    for (const name of ['bone', 'cutting line', 'where a page is cut', 'row 1'])
      expect(roll[0]!.text).not.toContain(name);
    const { pages } = await printed('a4');
    for (const name of ['bone', 'where a page is cut']) expect(pages[0]!.text).toContain(name);
    expect(pages[1]!.text).toContain('row 1, column 1');
  });

  it('divides what is longer than a PDF page may be', async () => {
    const long = {
      ...halfPattern(),
      panels: halfPattern().panels.flatMap((panel) => Array.from({ length: 25 }, () => panel)),
    };
    const { pages } = await readPdf(await printPattern(long, options('roll:450mm')));
    expect(pages.length).toBeGreaterThan(1);
    for (const { width, height } of pages) expect(Math.max(width, height)).toBeLessThanOrEqual(5080 + 1e-9);
  });

  it('prints 200 pages in little time and few bytes', async () => {
    const panels = halfPattern().panels.flatMap((panel) => Array.from({ length: 46 }, () => panel));
    const started = process.cpuUsage();
    const bytes = await printPattern({ ...halfPattern(), panels }, options('a4'));
    const seconds = process.cpuUsage(started).user / 1e6;
    const { count, pages } = await readPdf(bytes, 20);
    expect(count).toBeGreaterThan(200);
    expect(pages.every(({ paths }) => paths.length > 0)).toBe(true);
    expect(seconds).toBeLessThan(6);
    expect(bytes.length).toBeLessThan(1_000_000);
  });

  it('tells cutting, stitching and other lines apart by weight and dash, and carries notches out to the cutting line', async () => {
    const pattern = withGrain(halfPattern());
    const { pattern: cut } = addAllowance(pattern, { all: 10, byEdge: {} }, { default: 'mitre' });
    const { pages } = await readPdf(await printPattern({ ...cut, panels: cut.panels.slice(0, 1) }, options('a0')));
    const lines = pages[0]!.paths.filter((path) => path.depth === 1 && !path.filled);
    const looks = new Set(lines.map(({ lineWidth, dash }) => `${lineWidth}/${dash.length}`));
    expect([...looks].toSorted()).toEqual(['0.2/4', '0.3/0', '0.35/2', '0.35/4', '0.5/0', '0.6/0', '0.7/2']);
    const notch = lines.find(({ lineWidth }) => lineWidth === 0.5)!;
    const [from, to] = [notch.points[0]!, notch.points.at(-1)!];
    // A notch of 6 mm and an allowance of 10 mm; the seam is upright at the notch.
    expect(Math.hypot(to.x - from.x, to.y - from.y)).toBeCloseTo(16, 1);
    const first = await readPdf(await printPattern({ ...cut, panels: cut.panels.slice(0, 1) }, options('a0')));
    expect(first.pages[0]!.text).toContain('with seam allowance');
    expect(first.pages[0]!.text).toContain('10 mm');
  });

  it('draws a grainline only where the panel has one, and says so where it has none', async () => {
    const [first, ...others] = halfPattern().panels;
    const [grained] = withGrain({ ...halfPattern(), panels: [first!] }).panels;
    const { pages } = await readPdf(
      await printPattern({ ...halfPattern(), panels: [grained!, ...others] }, options('a0')),
    );
    const { paths, text } = pages[0]!;
    expect(paths.filter(({ depth, filled }) => depth === 1 && filled)).toHaveLength(2);
    expect(text.match(/no grainline/g)).toHaveLength(5);
  });

  it('takes any name', async () => {
    const pattern = halfPattern();
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'binary', maxLength: 80 }), fc.string({ unit: 'grapheme' }), async (a, b) => {
        const panels = pattern.panels.map((panel, at) => (at % 2 ? panel : { ...panel, name: at ? a : b }));
        const bytes = await printPattern({ ...pattern, name: a, panels }, options('a3', { title: b, changes: [a] }));
        expect((await readPdf(bytes)).pages.length).toBeGreaterThan(0);
      }),
      { numRuns: 12 },
    );
  });

  it('says so where a page is too small for a test square', async () => {
    await expect(printPattern(halfPattern(), options('60x200mm'))).rejects.toMatchObject({ code: 'usage' });
  });

  it('refuses a pattern without panels', async () => {
    await expect(printPattern({ ...halfPattern(), panels: [] }, options('a4'))).rejects.toMatchObject({
      code: 'input',
    });
  });
});
