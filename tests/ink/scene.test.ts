import { describe, expect, it } from 'vitest';
import { pointsPath } from '../../src/geometry/points-path.ts';
import { point } from '../../src/geometry/point.ts';
import { INK, MADDER, PAPER, PENCIL, SHADE, shares, WASH } from '../../src/ink/colour.ts';
import type { Scene, Words } from '../../src/ink/scene.ts';
import { scenePdf } from '../../src/ink/scene-pdf.ts';
import { scenePng } from '../../src/ink/scene-png.ts';
import { sceneSvg } from '../../src/ink/scene-svg.ts';
import { wordsBox, wordsWidth } from '../../src/ink/words-box.ts';
import { parseXml } from '../../src/svg/parse-xml.ts';
import { inkAlong, pixelsOf } from '../support/pixels.ts';
import { readPdf } from '../support/read-pdf.ts';

const word = (more: Partial<Words> = {}): Words => ({
  kind: 'words',
  text: 'taille',
  at: point(40, 40),
  size: 8,
  ...more,
});

const scene: Scene = {
  title: 'a <test> & more',
  width: 100,
  height: 60,
  marks: [
    {
      kind: 'area',
      path: pointsPath([point(60, 10), point(80, 10), point(80, 30), point(60, 30)], true),
      colour: SHADE,
    },
    {
      kind: 'stroke',
      path: pointsPath([point(20, 5), point(20, 55)]),
      style: { width: 1, colour: INK },
      of: 'front cf',
    },
    {
      kind: 'stroke',
      path: pointsPath([point(50, 5), point(50, 55)]),
      style: { width: 0.5, dash: [3, 2], colour: PENCIL },
    },
    word(),
  ],
};

const lined = (backed: boolean): Scene => ({
  ...scene,
  marks: [
    { kind: 'stroke', path: pointsPath([point(10, 37), point(90, 37)]), style: { width: 0.5 } },
    word({ backed }),
  ],
});

const longest = async (backed: boolean): Promise<number> =>
  Math.max(...inkAlong(await pixelsOf(await scenePng(lined(backed))), 296).map(([from, to]) => to - from));

describe('a picture', () => {
  it('is SVG that a strict reader takes, at the size of its paper, with its words as text', () => {
    const text = sceneSvg(scene);
    const root = parseXml(text, 'picture').root;
    expect(root.attributes).toMatchObject({
      width: '100mm',
      height: '60mm',
      viewBox: '0 0 100 60',
      'data-picture': '1',
    });
    expect(text).toContain('<title>a &lt;test&gt; &amp; more</title>');
    expect(text).toContain('data-of="front cf"');
    expect(text).toContain('>taille</text>');
    expect(sceneSvg(scene, 'outlines')).not.toContain('<text');
  });

  it('has its lines in a PNG where they were drawn, and says how large a pixel is and who made it', async () => {
    const png = await scenePng(scene);
    const pixels = await pixelsOf(png);
    expect([pixels.width, pixels.height]).toEqual([800, 480]);
    expect(pixels.pxPerMm).toBeCloseTo(8, 1);
    expect(Buffer.from(png.subarray(0, 200)).toString('latin1')).toContain('staywright');
    const [first] = inkAlong(pixels, 80);
    expect((first![0] + first![1]) / 2 / 8).toBeCloseTo(20, 1);
    expect((first![1] - first![0]) / 8).toBeCloseTo(1, 1);
    expect(await scenePng(scene)).toEqual(png);
  });

  it('has the same lines in a PDF, and the same words', async () => {
    const { pages, info } = await readPdf(await scenePdf(scene, { version: '0' }));
    expect(info['Title']).toBe('a <test> & more');
    expect(pages).toHaveLength(1);
    const [page] = pages;
    expect(page!.width).toBeCloseTo(100, 3);
    expect(page!.text).toContain('taille');
    const line = page!.paths.find(({ lineWidth, points }) => Math.abs(lineWidth - 1) < 1e-3 && points.length === 2)!;
    expect(line.points.map(({ x, y }) => [Math.round(x * 100) / 100, Math.round(y * 100) / 100])).toEqual([
      [20, 5],
      [20, 55],
    ]);
    const dashed = page!.paths.find(({ dash }) => dash.length === 2)!;
    expect(dashed.points[0]!.x).toBeCloseTo(50, 2);
  });

  it.each([
    ['start', undefined],
    ['middle', undefined],
    ['end', undefined],
    ['middle', -Math.PI / 2],
  ] as const)(
    'keeps words that begin at their %s, turned %s, within the box that they are said to take',
    async (align, angle) => {
      const words = word({ align, at: point(50, 30), ...(angle === undefined ? {} : { angle }) });
      const pixels = await pixelsOf(await scenePng({ title: '', width: 100, height: 60, marks: [words] }));
      const xs: number[] = [];
      const ys: number[] = [];
      for (let y = 0; y < pixels.height; y += 1) {
        for (const [from, to] of inkAlong(pixels, y)) {
          xs.push(from, to);
          ys.push(y, y + 1);
        }
      }
      const ink = [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)].map((px) => px / 8);
      const box = wordsBox(words);
      const [left, top] = [Math.min(...box.map(({ x }) => x)), Math.min(...box.map(({ y }) => y))];
      const [right, bottom] = [Math.max(...box.map(({ x }) => x)), Math.max(...box.map(({ y }) => y))];
      expect(ink[0]).toBeGreaterThan(left);
      expect(ink[1]).toBeGreaterThan(top);
      expect(ink[2]).toBeLessThan(right);
      expect(ink[3]).toBeLessThan(bottom);
      const length = angle === undefined ? ink[2]! - ink[0]! : ink[3]! - ink[1]!;
      expect(length).toBeGreaterThan(0.85 * wordsWidth('taille', 8));
    },
  );

  it('puts paper behind words that ask for it', async () => {
    expect(await longest(false)).toBeGreaterThan(600);
    expect(await longest(true)).toBeLessThan(280);
  });
});

it('the colours differ in lightness, so that black and white keeps them apart', () => {
  const lightness = [INK, MADDER, PENCIL, WASH, PAPER].map((colour) => {
    const [red, green, blue] = shares(colour);
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  });
  const steps = lightness.slice(1).map((light, at) => light - lightness[at]!);
  expect(Math.min(...steps)).toBeGreaterThan(0.08);
});
