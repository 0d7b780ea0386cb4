import { describe, expect, it } from 'vitest';
import { setGusset } from '../../src/alterations/gusset.ts';
import { moveSeams } from '../../src/alterations/move-seams.ts';
import { raiseLine } from '../../src/alterations/raise-line.ts';
import { redrawEdge } from '../../src/alterations/redraw-edge.ts';
import { splitSides } from '../../src/alterations/split-sides.ts';
import { signedArea } from '../../src/geometry/area.ts';
import { pathBox } from '../../src/geometry/box.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { pathEnd, pathStart } from '../../src/geometry/path.ts';
import { vector } from '../../src/geometry/vector.ts';
import { MADDER, WASH } from '../../src/ink/colour.ts';
import type { Area, Scene, Stroke, Words } from '../../src/ink/scene.ts';
import { sceneSvg } from '../../src/ink/scene-svg.ts';
import { wordsBox } from '../../src/ink/words-box.ts';
import { comparePatterns } from '../../src/measure/compare-patterns.ts';
import { movedPanel } from '../../src/pattern/moved-panel.ts';
import type { Pattern, Units } from '../../src/pattern/pattern.ts';
import { overlayScene } from '../../src/picture/overlay-scene.ts';
import { boxPattern } from '../support/box-pattern.ts';
import { intoSeam } from '../support/gussets.ts';
import { block } from '../support/blocks.ts';
import { at, letOut, takeIn } from '../support/moves.ts';
import { expectSamePicture } from '../support/same-picture.ts';
import { halfPattern, patternOf } from '../support/shaped-panels.ts';
import { clashes } from '../support/words-apart.ts';

const drawn = (before: Pattern, after: Pattern, units: Units = 'mm', sharesFrame = true): Scene =>
  overlayScene(before, after, comparePatterns(before, after, { sharesFrame }).panels, {
    title: 'Shapes: two versions',
    before: 'Shapes (11111111)',
    after: 'Shapes (22222222)',
    units,
    sharesFrame,
  });

const strokes = ({ marks }: Scene, of: string): Stroke[] =>
  marks.filter((mark): mark is Stroke => mark.kind === 'stroke' && mark.of === of);

const areas = ({ marks }: Scene): Area[] =>
  marks.filter((mark): mark is Area => mark.kind === 'area' && mark.of !== undefined);

const words = ({ marks }: Scene): string[] =>
  marks.filter((mark): mark is Words => mark.kind === 'words').map(({ text }) => text);

const amounts = (scene: Scene): string[] => words(scene).filter((text) => /^[+-]\d/.test(text));

const right = (pattern: Pattern): Pattern => ({
  ...pattern,
  panels: pattern.panels.filter(({ side }) => side === 'right'),
});

/** Boxes 80 mm wide and 360 mm high; both edges of the seam between the first two let out by 5 mm. */
const boxes = boxPattern(3);
const wider = moveSeams(boxes, letOut(['seam-1'], 5)).pattern;

/** The two panels beside the side seam. */
const sides = patternOf(...halfPattern().panels.slice(1, 3));

const many: readonly (readonly [string, Pattern, Pattern])[] = [
  ['let out', sides, moveSeams(sides, letOut(['side', 'side-back'], 6)).pattern],
  [
    'taken in above the waist',
    sides,
    moveSeams(sides, takeIn(['side'], 9, { where: { kind: 'above', level: at('waist') } })).pattern,
  ],
  ['raised', sides, raiseLine(sides, { levels: [at('waist')], amount: 10, hold: [] }).pattern],
  ['redrawn', sides, redrawEdge(sides, { edge: 'top', at: [{ seam: 'side', amount: -15 }] }).pattern],
  ['split', splitSides(boxes).pattern, moveSeams(splitSides(boxes).pattern, letOut(['seam-1', 'cf', 'cb'], 5)).pattern],
];

const amount = (level: string, mm: number) => ({ level: at(level), amount: mm });

describe('an overlay', () => {
  it('lays both lines as far apart as they are, at the scale that it names', () => {
    const scene = drawn(boxes, wider);
    const [before] = strokes(scene, 'panel-1 seam-1, before');
    const [after] = strokes(scene, 'panel-1 seam-1, after');
    expect(words(scene).some((text) => text.startsWith('scale 1:2 '))).toBe(true);
    expect(pathStart(after!.path).x - pathStart(before!.path).x).toBeCloseTo(5 / 2, 9);
    expect(pathEnd(before!.path).y - pathStart(before!.path).y).toBeCloseTo(360 / 2, 9);
    const [other] = strokes(scene, 'panel-2 seam-1, before');
    expect(pathStart(other!.path).x - pathStart(before!.path).x).toBeGreaterThan(10);
  });

  it('marks what moved: heavy in its colour, the ground between washed, the amount beside both edges', () => {
    const scene = drawn(boxes, wider);
    const changed = scene.marks.filter(
      (mark): mark is Stroke => mark.kind === 'stroke' && mark.style.colour === MADDER,
    );
    const named = changed.flatMap(({ of }) => of ?? []);
    expect(named.filter((of) => of.includes('seam-1'))).toEqual(['panel-1 seam-1, changed', 'panel-2 seam-1, changed']);
    expect(areas(scene).map(({ of, colour }) => [of, colour])).toEqual([
      ['panel-1 seam-1, moved', WASH],
      ['panel-2 seam-1, moved', WASH],
    ]);
    for (const { path } of areas(scene)) expect(Math.abs(signedArea(path))).toBeCloseTo((5 * 360) / 4, 3);
    expect(amounts(scene)).toEqual(['+5.00', '+5.00']);
    expect(amounts(drawn(boxes, wider, 'in'))).toEqual(['+3/16 + 1/64', '+3/16 + 1/64']);
    expect(amounts(drawn(wider, boxes))).toEqual(['-5.00', '-5.00']);
  });

  it('marks nothing where nothing moved, and less than 0.1 mm is nothing', () => {
    for (const after of [boxes, moveSeams(boxes, letOut(['cb'], 0.09)).pattern]) {
      const scene = drawn(boxes, after);
      expect(areas(scene)).toEqual([]);
      expect(amounts(scene)).toEqual([]);
    }
  });

  it('marks only the stretch that moved', () => {
    const after = moveSeams(boxes, takeIn(['cb'], 8, { where: { kind: 'above', level: at('waist') } })).pattern;
    const scene = drawn(boxes, after);
    const [waist] = strokes(scene, 'panel-3 waist, after');
    const [stretch] = strokes(scene, 'panel-3 cb, changed');
    const { minY, maxY } = pathBox(stretch!.path);
    const [edge] = strokes(scene, 'panel-3 cb, after');
    expect(minY).toBeCloseTo(pathBox(edge!.path).minY, 6);
    // A flat taper: 0.1 mm of 8 is reached a good way above the waist.
    expect(maxY).toBeLessThan(pathStart(waist!.path).y);
    expect(maxY).toBeGreaterThan(pathStart(waist!.path).y - 25 / 2);
  });

  it('tells each stretch of an edge by its own amount', () => {
    const moved = takeIn(['cb'], { kind: 'at', at: [amount('bust', 4), amount('waist', 0), amount('hip', -2)] });
    const before = patternOf(...halfPattern().panels.slice(2));
    const told = amounts(drawn(before, moveSeams(before, moved).pattern));
    expect(told).toEqual(['-4.00', '+2.00']);
  });

  it('draws the line of each version where it is, waist on waist, wherever the other was drawn', () => {
    const away = { ...wider, panels: wider.panels.map((panel) => movedPanel(panel, vector(31, -47))) };
    const scene = drawn(boxes, away, 'mm', false);
    const [before, after] = ['before', 'after'].map((when) => strokes(scene, `panel-1 seam-1, ${when}`)[0]!.path);
    expect(pathStart(after!).y).toBeCloseTo(pathStart(before!).y, 9);
    expect(pathStart(after!).x - pathStart(before!).x).toBeCloseTo(2.5 / 2, 9);
    expect(words(scene).some((text) => text.includes('by their waists'))).toBe(true);
  });

  it('draws the wearer’s right as it lies on paper, with its amounts on its own side', () => {
    const before = splitSides(boxes).pattern;
    const after = moveSeams(right(before), letOut(['cb'], 5)).pattern;
    const scene = drawn(right(before), after);
    const [was, is] = ['before', 'after'].map((when) => strokes(scene, `panel-3-right cb, ${when}`)[0]!.path);
    expect(pathStart(is!).x - pathStart(was!).x).toBeCloseTo(-5 / 2, 9);
    const told = scene.marks.find((mark): mark is Words => mark.kind === 'words' && mark.text === '+5.00')!;
    expect(Math.max(...wordsBox(told).map(({ x }) => x))).toBeLessThan(pathStart(is!).x);
  });

  it('shows a gusset that only one version has, either way round', () => {
    const before = patternOf(block('front', ['cf', 'side'], 200, 150), block('back', ['side', 'cb'], 200, 150));
    const { pattern: after } = setGusset(before, intoSeam(40));
    expect(areas(drawn(before, after)).map(({ of }) => of)).toEqual(['side-gusset, only after']);
    expect(areas(drawn(after, before)).map(({ of }) => of)).toEqual(['side-gusset, only before']);
    expect(strokes(drawn(after, before), 'side-gusset bottom, before')).toHaveLength(1);
  });

  it.each(many)('keeps its words off each other and off the lines: %s', (_, before, after) => {
    for (const units of ['mm', 'in'] as const) {
      for (const scene of [drawn(before, after, units), drawn(after, before, units)]) {
        expect(clashes(scene)).toEqual([]);
        const lines = scene.marks.filter(
          (mark): mark is Stroke =>
            mark.kind === 'stroke' && /, (before|after)$/.test(mark.of ?? '') && !/waist|bust|hip/.test(mark.of!),
        );
        const told = scene.marks.filter((mark): mark is Words => mark.kind === 'words' && /^[+-]\d/.test(mark.text));
        expect(told.length).toBeGreaterThan(0);
        for (const text of told) {
          const corners = wordsBox(text);
          const middles = corners.map((corner, i) => {
            const next = corners[(i + 1) % 4]!;
            return { x: (corner.x + next.x) / 2, y: (corner.y + next.y) / 2 };
          });
          const near = Math.min(
            ...[...corners, ...middles].flatMap((point) => lines.map(({ path }) => nearestPoint(path, point).distance)),
          );
          expect([text.text, near > 0.4]).toEqual([text.text, true]);
        }
      }
    }
  });

  it('is the same, byte for byte, when drawn again', () => {
    expect(sceneSvg(drawn(boxes, wider))).toBe(sceneSvg(drawn(boxes, wider)));
  });

  it('looks as it did when it was looked at', async () => {
    const before = patternOf(...halfPattern().panels.slice(2));
    const taken = moveSeams(before, takeIn(['cb'], 12, { where: { kind: 'above', level: at('waist') } })).pattern;
    await expect(
      expectSamePicture('overlay', drawn(before, moveSeams(taken, letOut(['side-back'], 7)).pattern, 'in')),
    ).resolves.toBeUndefined();
  });
});
