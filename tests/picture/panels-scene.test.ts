import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { setGusset } from '../../src/alterations/gusset.ts';
import { splitSides } from '../../src/alterations/split-sides.ts';
import { pathBox } from '../../src/geometry/box.ts';
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
