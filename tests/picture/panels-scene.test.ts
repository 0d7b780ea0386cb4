import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { setGusset } from '../../src/alterations/gusset.ts';
import { splitSides } from '../../src/alterations/split-sides.ts';
import { pathBox } from '../../src/geometry/box.ts';
import { transformPath } from '../../src/geometry/transform-path.ts';
import { wordsBox } from '../../src/ink/words-box.ts';
import type { Scene, Stroke, Words } from '../../src/ink/scene.ts';
import { girthAt, levelCalled } from '../../src/pattern/girth-at.ts';
import { shortLength } from '../../src/pattern/format-length.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { panelsScene } from '../../src/picture/panels-scene.ts';
import { readSvg } from '../../src/svg/read-svg.ts';
import { boxPattern } from '../support/box-pattern.ts';
import { intoSlit } from '../support/gussets.ts';
import { halfPattern } from '../support/half-pattern.ts';
import { everyWay } from '../support/every-way.ts';
import { expectSamePicture } from '../support/same-picture.ts';
import { clashes } from '../support/words-apart.ts';

const sceneOf = (pattern: Pattern, units: 'mm' | 'in' = 'mm'): Scene =>
  panelsScene(pattern, { title: pattern.name, hash: '0123456789', units });

const strokes = ({ marks }: Scene, of: RegExp): Stroke[] =>
  marks.filter((mark): mark is Stroke => mark.kind === 'stroke' && mark.of !== undefined && of.test(mark.of));

const texts = ({ marks }: Scene): string[] =>
  marks.filter((mark): mark is Words => mark.kind === 'words').map(({ text }) => text);

const net = (): Pattern => {
  const reading = readSvg(readFileSync(new URL('../golden/inputs/net.svg', import.meta.url), 'utf8'), 'net.svg');
  if (reading.kind !== 'sheet') throw new Error('no sheet');
  return reading.sheet.pattern;
};

const withGusset = (): Pattern => setGusset(halfPattern(), intoSlit('side-back', 0.5, 30)).pattern;

/** Without its notches and grainlines. */
const stretched = (pattern: Pattern, across: number, down: number): Pattern => ({
  ...pattern,
  panels: pattern.panels.map(({ name, line, edges, levels }) => ({
    name,
    line,
    bones: [],
    edges: edges.map((edge) => ({
      ...edge,
      path: transformPath(edge.path, { a: across, b: 0, c: 0, d: down, e: 0, f: 0 }),
    })),
    levels: levels.map(({ name: level, y, fromX, toX }) => ({
      name: level,
      y: y * down,
      fromX: fromX * across,
      toX: toX * across,
    })),
    notches: [],
  })),
});

describe('the picture of the panels', () => {
  it('lays every waist on one line and says its width and the girth', () => {
    const pattern = halfPattern();
    const scene = sceneOf(pattern);
    const waists = strokes(scene, / waist$/).map(({ path }) => pathBox(path));
    expect(waists).toHaveLength(6);
    for (const { minY, maxY } of waists) {
      expect(minY).toBeCloseTo(waists[0]!.minY, 9);
      expect(maxY).toBeCloseTo(minY, 9);
    }
    const { girth, panels } = girthAt(pattern, levelCalled('waist'));
    expect(texts(scene)).toEqual(expect.arrayContaining(panels.map(({ width }) => shortLength(width, 'mm', true))));
    expect(texts(scene)).toContain(`${girth.toFixed(1)} mm`);
    expect(girth).toBeCloseTo(2 * (62 + 58 + 54 + 52 + 56 + 58), 6);
  });

  it('draws at the scale that it names, panels apart', () => {
    const scene = sceneOf(halfPattern());
    const named = texts(scene).find((text) => text.includes('scale'))!;
    const scale = 1 / Number(/scale 1:(\d+)/.exec(named)![1]);
    const waist = strokes(scene, /^front waist$/).map(({ path }) => pathBox(path))[0]!;
    expect(waist.maxX - waist.minX).toBeCloseTo(62 * scale, 3);
    const outlines = halfPattern().panels.map(({ name }) =>
      strokes(scene, new RegExp(`^${name} (?!waist|bust|hip|grain|notch)`)).map(({ path }) => pathBox(path)),
    );
    const ends = outlines.map((boxes) => [
      Math.min(...boxes.map((b) => b.minX)),
      Math.max(...boxes.map((b) => b.maxX)),
    ]);
    const gaps = ends.slice(1).map(([left], at) => left! - ends[at]![1]!);
    expect(Math.min(...gaps)).toBeGreaterThan(10);
  });

  it('gives each side a row of its own, the right one mirrored and from back to front, both on the same scale', () => {
    const pattern = splitSides(withGusset()).pattern;
    const scene = sceneOf(pattern);
    const left = (of: RegExp): number => pathBox(strokes(scene, of)[0]!.path).minX;
    const top = (of: RegExp): number => pathBox(strokes(scene, of)[0]!.path).minY;
    expect(left(/^front-right top$/)).toBeGreaterThan(left(/^back-right top$/));
    expect(left(/^front-left top$/)).toBeLessThan(left(/^back-left top$/));
    expect(top(/^front-left top$/)).toBeGreaterThan(top(/^front-right bottom$/));
    const width = (of: RegExp): number => {
      const box = pathBox(strokes(scene, of)[0]!.path);
      return box.maxX - box.minX;
    };
    expect(width(/^front-right waist$/)).toBeCloseTo(width(/^front-left waist$/), 9);
    expect(texts(scene)).toEqual(expect.arrayContaining(['right half', 'left half', 'round the body']));
  });

  it('tells no girth of cutting lines, in which allowance is', () => {
    const pattern = halfPattern();
    const cutting: Pattern = { ...pattern, panels: pattern.panels.map((panel) => ({ ...panel, line: 'cutting' })) };
    expect(texts(sceneOf(cutting))).not.toContain('round the body');
    expect(texts(sceneOf(cutting)).join(' ')).toContain('seam allowance is in them');
  });

  it.each([
    ['a half pattern', halfPattern],
    ['a gusset', withGusset],
    ['both sides', () => splitSides(withGusset()).pattern],
    ['thirty panels', () => boxPattern(30)],
    ['one panel', () => ({ ...halfPattern(), panels: halfPattern().panels.slice(0, 1) })],
    [
      'levels that nearly touch',
      () => ({
        ...halfPattern(),
        panels: halfPattern().panels.map((panel) => ({
          ...panel,
          levels: panel.levels.flatMap((level) =>
            level.name === 'waist' ? [level, { ...level, name: 'a little below the waist', y: level.y + 12 }] : [level],
          ),
        })),
      }),
    ],
  ] as const)('keeps its words apart from each other and on the paper: %s', (_, pattern) => {
    for (const units of ['mm', 'in'] as const) expect(clashes(sceneOf(pattern(), units))).toEqual([]);
  });

  it('keeps the names of thirty levels near each other on the paper and off the heading', () => {
    const panels = halfPattern().panels.map((panel) => {
      const [bust] = panel.levels;
      const many = Array.from({ length: 30 }, (_, at) => ({ ...bust!, name: `level-${at}`, y: bust!.y + at }));
      return { ...panel, levels: [...panel.levels, ...many.slice(1)] };
    });
    const besides = clashes(sceneOf({ ...halfPattern(), panels })).filter((clash) => !/^[\d.]+ \| [\d.]+$/.test(clash));
    expect(besides).toEqual([]);
  });

  it('writes no name over the outline of a panel 11 mm wide', () => {
    const scene = sceneOf(stretched(boxPattern(6), 11 / 80, 1));
    const names = scene.marks.filter(
      (mark): mark is Words => mark.kind === 'words' && mark.weight === 'bold' && mark.angle !== undefined,
    );
    expect(names).toHaveLength(6);
    for (const [at, name] of names.entries()) {
      const xs = wordsBox(name).map(({ x }) => x);
      const [left, right] = strokes(scene, new RegExp(`^panel-${at + 1} waist$`)).flatMap(({ path }) => {
        const { minX, maxX } = pathBox(path);
        return [minX, maxX];
      });
      expect(Math.min(...xs)).toBeGreaterThan(left! + 0.3);
      expect(Math.max(...xs)).toBeLessThan(right! - 0.3);
    }
  });

  it('draws what is made for a doll larger than it is, and says so', () => {
    const scene = sceneOf(stretched(halfPattern(), 0.1, 0.1));
    expect(texts(scene).some((text) => text.includes('scale 4:1'))).toBe(true);
    const waist = strokes(scene, /^front waist$/).map(({ path }) => pathBox(path))[0]!;
    expect(waist.maxX - waist.minX).toBeCloseTo(4 * 6.2, 3);
    expect(clashes(scene)).toEqual([]);
  });

  it('says of panels that were never labelled that nothing is named, not what is not there', () => {
    const panels = halfPattern().panels.map((panel) => ({
      ...panel,
      edges: panel.edges.map((edge, at) => ({ ...edge, name: `edge-${at}` })),
      levels: [],
      notches: [],
    }));
    const said = texts(sceneOf({ ...halfPattern(), panels })).join(' ');
    expect(said).toMatch(/Its seams and levels have no names yet: see staywright help label\.$/);
    expect(said).not.toMatch(/Widths lie|Beside each seam/);
  });

  it('shortens a name of a pattern that is longer than the paper is wide in its middle', () => {
    const scene = sceneOf({ ...halfPattern(), name: `${'a name that goes on and on '.repeat(9)}: the end` });
    expect(scene.width).toBeLessThanOrEqual(420);
    expect(texts(scene)[0]).toMatch(/^a name .*…n and on : the end$|^a name.*….*: the end$/);
  });

  it.each(everyWay)('draws any panel on its paper: $name', ({ pattern }) => {
    const scene = sceneOf(pattern);
    for (const mark of scene.marks) {
      if (mark.kind !== 'stroke') continue;
      const { minX, minY, maxX, maxY } = pathBox(mark.path);
      expect(Math.min(minX, minY)).toBeGreaterThanOrEqual(0);
      expect(maxX).toBeLessThanOrEqual(scene.width);
      expect(maxY).toBeLessThanOrEqual(scene.height);
    }
  });

  it.each([
    ['net-mm', net, 'mm'],
    ['half-pattern-in', halfPattern, 'in'],
    ['both-sides-with-gusset-in', () => splitSides(withGusset()).pattern, 'in'],
  ] as const)('looks as it did: %s', async (name, pattern, units) => {
    await expect(expectSamePicture(`panels-${name}`, sceneOf(pattern(), units))).resolves.toBeUndefined();
  });
});
