/** From scans to a drawing in true millimetres, by the real executable. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp, { type Metadata, type Sharp } from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { distance, point, type Point } from '../../src/geometry/point.ts';
import { line } from '../../src/geometry/segment.ts';
import { cross, unit, vectorTo } from '../../src/geometry/vector.ts';
import type { Picture } from '../../src/scan/picture.ts';
import { encodeScan } from '../support/scans/encode-scan.ts';
import { makeScan } from '../support/scans/make-scan.ts';
import { GUSSET, SIDE } from '../support/scans/scan-panels.ts';
import { tinySheet } from '../support/scans/tiny-sheet.ts';
import { runMain, type Finished } from '../support/run-main.ts';
import { runScript } from '../support/run-script.ts';
import { EXECUTABLE, runStaywright } from '../support/run-staywright.ts';

const folder = mkdtempSync(join(tmpdir(), 'staywright-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const put = (name: string, bytes: Uint8Array | string): void => writeFileSync(join(folder, name), bytes);
const kept = (name: string): string => readFileSync(join(folder, name), 'latin1');

/** Runs trace with a square of 20 mm. */
const trace = (words: string): Promise<Finished> =>
  runMain(['trace', ...words.split(' '), '--test-square', '20mm'], { cwd: folder });

/** The four straight sides of the tiny sheet's panel, clockwise from its upper tip. */
const SIDES = [Math.hypot(12, 30), Math.hypot(12, 28), Math.hypot(12, 28), Math.hypot(12, 30)];

const NEAR = 0.05;

/** The places of each panel's outline in a drawing. */
const outlinesIn = (drawing: string): Point[][] =>
  [...drawing.matchAll(/id="panel-\d+"[^>]* d="([^"]*) Z"/g)].map(([, d]) =>
    [...d!.matchAll(/([-\d.]+),([-\d.]+)/g)].map(([, x, y]) => point(Number(x), Number(y))),
  );

/** How far an outline is from the tiny sheet's panel: by the sides between its outermost places, and by all that lies off them. */
const offBy = (places: readonly Point[]): number => {
  const outermost = (measure: (p: Point) => number): Point =>
    places.reduce((best, p) => (measure(p) > measure(best) ? p : best));
  const corners = [
    outermost(({ y }) => -y),
    outermost(({ x }) => x),
    outermost(({ y }) => y),
    outermost(({ x }) => -x),
  ];
  const sides = corners.map((p, i) => line(p, corners[(i + 1) % 4]!));
  const wrong = sides.map(({ start, end }, i) => Math.abs(distance(start, end) - SIDES[i]!));
  const astray = places.map((p) =>
    Math.min(
      ...sides.map(({ start, end }) => {
        const across = cross(unit(vectorTo(start, end)), vectorTo(start, p));
        return Math.abs(across);
      }),
    ),
  );
  return Math.max(...wrong, ...astray);
};

const expectTrue = (drawing: string, count: number): void => {
  const found = outlinesIn(drawing);
  expect(found).toHaveLength(count);
  expect(Math.max(...found.map(offBy))).toBeLessThan(NEAR);
};

let scan: Picture;

beforeAll(async () => {
  scan = (await makeScan(tinySheet())).picture;
  put('scan.png', await encodeScan(scan, 'png', { density: 96 }));
  put('pieces.jpg', await encodeScan((await makeScan(tinySheet('cutout'))).picture, 'jpeg', { quality: 90 }));
  const bodice = { ...tinySheet(), sheet: { width: 71, height: 94 }, square: { side: 20, at: { x: 4, y: 36 } } };
  put(
    'bodice.png',
    await encodeScan((await makeScan({ ...bodice, panels: [{ panel: SIDE, at: { x: 31, y: 46 } }] })).picture, 'png'),
  );
  const across = [22, 40].map((y) =>
    line(...(([-1, 1] as const).map((way) => point(12 + way * halfWidth(y), y)) as [Point, Point])),
  );
  const panel = { ...GUSSET, across, grain: line(point(12, 7), point(12, 52)) };
  const lined = await makeScan({ ...tinySheet(), panels: [{ panel, at: tinySheet().panels[0]!.at }] });
  put('lined.png', await encodeScan(lined.picture, 'png', { density: 150 }));
});

/** Of the tiny sheet's panel, at a height below its tip. */
const halfWidth = (y: number): number => (y < 30 ? (12 * y) / 30 : (12 * (58 - y)) / 28);

const raw = (samples: Uint8Array | Uint16Array, channels: 1 | 4): Sharp =>
  sharp(samples, { raw: { width: scan.width, height: scan.height, channels } });

const metadata = (name: string): Promise<Metadata> => sharp(join(folder, name)).metadata();

describe('trace', () => {
  it('reads pictures of every depth and colour alike, and numbers the panels of several scans on', async () => {
    const { grey } = scan;
    const deep = Uint16Array.from(grey, (value) => value * 257);
    const ink = Uint8Array.from({ length: 4 * grey.length }, (_, at) => (at % 4 === 3 ? 255 - grey[at >> 2]! : 0));
    const bits = grey.map((value) => (value < 140 ? 0 : 255));
    put('cmyk.jpg', await raw(grey, 1).toColourspace('cmyk').jpeg({ quality: 95 }).toBuffer());
    put('deep.png', await raw(deep, 1).toColourspace('grey16').png().toBuffer());
    put('clear.png', await raw(ink, 4).png().toBuffer());
    put('palette.png', await raw(grey, 1).png({ palette: true, colours: 64, dither: 0 }).toBuffer());
    put('bits.tif', await encodeScan({ ...scan, grey: bits }, 'tiff', { bilevel: true }));
    expect((await metadata('cmyk.jpg')).space).toBe('cmyk');
    expect((await metadata('deep.png')).depth).toBe('ushort');
    expect((await metadata('clear.png')).hasAlpha).toBe(true);
    expect((await metadata('palette.png')).isPalette).toBe(true);
    expect((await metadata('bits.tif')).bitsPerSample).toBe(1);
    const ran = await trace('scan.png cmyk.jpg deep.png clear.png palette.png bits.tif');
    expect(ran.code).toBe(0);
    expectTrue(ran.stdout, 6);
    expect([...ran.stdout.matchAll(/id="(panel-\d)"/g)].map(([, id]) => id)).toEqual(
      [1, 2, 3, 4, 5, 6].map((n) => `panel-${n}`),
    );
  });

  it('traces pieces cut out of paper along their edge', async () => {
    const ran = await trace('pieces.jpg');
    expectTrue(ran.stdout, 1);
    expect(ran.stderr).toMatch(/^trace:\npieces\.jpg: pieces cut out of paper\nscale: from the 20 mm square, /);
    expect(ran.stderr).toMatch(/\npanel-1 +24\.0\d +58\.0\d +4 +1 +yes +none\n1 panel traced/);
  });

  it('is a filter, and label and strip-allowance take what it gives', async () => {
    const ran = await runScript(
      `staywright trace - --test-square 20mm -q < bodice.png |
        staywright label --line cutting --panels side --seams front,back -q |
        staywright strip-allowance --allowance 3mm --units in`,
      { cwd: folder },
    );
    expect(ran.code).toBe(0);
    expect(ran.stderr).toMatch(/^strip-allowance:\n0\.118[^]*\nAllowance taken off 1 panel/);
    expect(ran.stdout).toMatch(/id="side" data-kind="panel" data-line="stitching"[^]*data-level="waist"/);
  });

  it('writes the same drawing and preview twice, over its own and, with --force, over those of others', async () => {
    const words = 'scan.png -o drawn.svg --preview seen.png';
    const first = await trace(words);
    expect({ code: first.code, stdout: first.stdout }).toEqual({ code: 0, stdout: '' });
    expect(first.stderr).toMatch(/\nwrote drawn\.svg\nwrote seen\.png\n1 panel traced/);
    const [drawing, preview] = [kept('drawn.svg'), kept('seen.png')];
    expectTrue(drawing, 1);
    expect(await sharp(join(folder, 'seen.png')).metadata()).toMatchObject({
      format: 'png',
      width: scan.width,
      height: scan.height,
    });
    put('drawn.svg', drawing.replace('</svg>', '<!-- noted --></svg>'));
    expect((await trace(words)).code).toBe(0);
    expect([kept('drawn.svg') === drawing, kept('seen.png') === preview]).toEqual([true, true]);

    put('drawn.svg', '<svg xmlns="http://www.w3.org/2000/svg"/>');
    put('seen.png', await encodeScan(scan, 'png'));
    const refused = await trace(words);
    expect({ code: refused.code, stderr: refused.stderr }).toEqual({
      code: 2,
      stderr:
        'staywright trace: drawn.svg: was not written by staywright\n  hint: choose another name, or replace it with --force\n',
    });
    expect((await trace(`${words} -q -o new.svg`)).stderr).toMatch(/seen\.png: was not written by staywright/);
    expect(readdirSync(folder)).not.toContain('new.svg');
    expect(await trace(`${words} -q --force`)).toMatchObject({ code: 0, stdout: '', stderr: '' });
    expect([kept('drawn.svg') === drawing, kept('seen.png') === preview]).toEqual([true, true]);
  });

  it('gives its report as one JSON document with units in its keys, and writes nothing on a dry run', async () => {
    const before = readdirSync(folder);
    const ran = await trace('lined.png --level bust,waist --preview lined-1.png -o lined.svg --json -n');
    expect({ code: ran.code, stderr: ran.stderr }).toEqual({ code: 0, stderr: '' });
    expect(readdirSync(folder)).toEqual(before);
    const number = expect.any(Number) as number;
    expect(JSON.parse(ran.stdout)).toEqual({
      findings: [],
      scans: [
        {
          scans: ['lined.png'],
          kind: 'line',
          scale: {
            from: 'test-square',
            dpi_x: number,
            dpi_y: number,
            turn_degrees: number,
            shear_degrees: number,
            misfit_mm: number,
            doubt_mm_in_100: number,
          },
        },
      ],
      panels: [
        {
          panel: 'panel-1',
          width_mm: number,
          height_mm: number,
          corners: 4,
          notches: 1,
          levels: ['bust', 'waist'],
          grain: true,
          spread_mm: number,
          bridged_mm: number,
        },
      ],
    });
  });

  it('says where lines right across and --level do not agree, and what the size hangs on; in inches if asked', async () => {
    const ran = await runStaywright(['trace', 'lined.png', '--level', 'waist', '--units', 'in'], { cwd: folder });
    expect(ran.code).toBe(0);
    expect(ran.stderr).toMatch(/\nscale: 150 dpi, as the file says of itself; [^]*\n\nin in +wide +high /);
    expect(ran.stderr).toMatch(/\npanel-1 +0\.94\d \([^)]*\) +2\.28\d \([^)]*\) +4 +1 +yes\n/);
    expect(ran.stderr).toMatch(/\npanel-1 +line-1, line-2\n/);
    expect(ran.stderr).toMatch(/\nwarning: lined\.png: the size is only what the file says of itself \(150 dpi\)\n/);
    expect(ran.stderr).toMatch(
      /\nwarning: panel-1: 2 lines right across, called line-1 [^\n]*\n {2}hint: --level names 1 line: /,
    );
    expect(ran.stdout).toMatch(/data-level="line-1"[^]*data-level="line-2"/);
  });

  it.skipIf(spawnSync('script', ['--version']).status !== 0)('shows its short help where no scan can come', () => {
    const ran = spawnSync('script', ['-qec', `'${process.execPath}' '${EXECUTABLE}' trace; echo $?`, '/dev/null'], {
      cwd: folder,
      stdio: ['ignore', 'pipe', 'pipe'],
      encoding: 'utf8',
    });
    expect(ran.stdout.replaceAll('\r\n', '\n')).toMatch(/Usage: staywright trace [^]*\n2\n$/);
  });
});
