import { describe, expect, it } from 'vitest';
import { pointOn } from '../../src/geometry/evaluate.ts';
import { pathEnd, pathStart } from '../../src/geometry/path.ts';
import type { Area, Mark, Stroke, Words } from '../../src/ink/scene.ts';
import type { GirthPlotRow } from '../../src/picture/girth-plot-row.ts';
import { backReach, lacedBack } from '../../src/picture/laced-back.ts';
import { lacedOpening } from '../../src/picture/laced-back-opening.ts';

/** One level, of which only the back is looked at. */
const row = (y: number, fromCentre: GirthPlotRow['fromCentre'], gapWanted = 50): GirthPlotRow => {
  const gap = (fromCentre.left ?? 0) + (fromCentre.right ?? 0);
  return { level: `at ${y}`, y, body: 0, wanted: 0, pattern: 0, needs: gap - gapWanted, gap, gapWanted, fromCentre };
};

const even = (y: number, gap: number): GirthPlotRow => row(y, { left: gap / 2, right: gap / 2 });

const SPAN = { top: -200, bottom: 160 };
const PLACE = { at: { x: 100, y: 300 }, scale: 1 / 2, part: 18, spans: { left: SPAN, right: SPAN } };

const drawn = (rows: readonly GirthPlotRow[]) => lacedBack(rows, PLACE);

const strokes = (marks: readonly Mark[], of: string): Stroke[] =>
  marks.filter((mark): mark is Stroke => mark.kind === 'stroke' && mark.of === of);

const words = (marks: readonly Mark[]): string[] =>
  marks.filter((mark): mark is Words => mark.kind === 'words').map(({ text }) => text);

/** Where strokes begin and end, back in millimetres of cloth from the centre back and below the waist. */
const ends = (all: readonly Stroke[]): number[][] =>
  all.map(({ path }) =>
    [pathStart(path), pathEnd(path)].flatMap(({ x, y }) =>
      [(x - 100) * 2, (y - 300) * 2].map((mm) => Number(mm.toFixed(6)) + 0),
    ),
  );

const FOUR = [even(-170, 32), even(-100, 43), even(0, 51), even(80, 75)];

describe('the opening of a laced back', () => {
  it('is as wide as each gap at its level, half to either side, and never leaves what lies between two', () => {
    const { place } = lacedOpening(FOUR);
    for (const { y, gap } of FOUR) {
      expect(place('left', y, false).x).toBeCloseTo(-gap / 2, 9);
      expect(place('right', y, false).x).toBeCloseTo(gap / 2, 9);
    }
    for (const [at, { y, gap }] of FOUR.slice(0, -1).entries()) {
      const next = FOUR[at + 1]!;
      for (let share = 0; share <= 1; share += 1 / 16) {
        const { x } = place('right', y + (next.y - y) * share, false);
        expect(x).toBeGreaterThanOrEqual(gap / 2 - 1e-9);
        expect(x).toBeLessThanOrEqual(next.gap / 2 + 1e-9);
      }
    }
  });

  it('is held beyond the outermost levels, and known to be so', () => {
    const { place, pieces } = lacedOpening(FOUR);
    expect(place('left', -195, false)).toEqual({ x: -16, slope: 0 });
    expect(place('right', 150, false)).toEqual({ x: 37.5, slope: 0 });
    expect(pieces(SPAN).map(({ top, bottom, held }) => [top, bottom, held])).toEqual([
      [-200, -170, true],
      [-170, -100, false],
      [-100, 0, false],
      [0, 80, false],
      [80, 160, true],
    ]);
  });

  it('closes where a gap that shrinks evenly comes to nothing', () => {
    const { pieces } = lacedOpening([even(0, 20), even(100, -30)]);
    const [open, closed] = pieces({ top: 0, bottom: 100 });
    expect(open).toMatchObject({ top: 0, meets: false });
    expect(open!.bottom).toBeCloseTo(40, 9);
    expect(closed).toMatchObject({ top: open!.bottom, bottom: 100, meets: true });
  });

  it('takes levels of one height as one, at their mean', () => {
    const { place } = lacedOpening([even(0, 20), even(0, 40), even(100, 10)]);
    expect(place('right', 0, false).x).toBeCloseTo(15, 9);
  });

  it('stands as far off the centre back as the halves do', () => {
    const { place } = lacedOpening([row(0, { left: 30, right: 10 }), row(50, { left: -5, right: 45 })]);
    expect([place('left', 0, false).x, place('right', 0, false).x]).toEqual([-30, 10]);
    expect([place('left', 50, false).x, place('right', 50, false).x]).toEqual([5, 45]);
  });
});

describe('the picture of a laced back', () => {
  it('draws each edge unbroken through the levels and dashed beyond, at its scale', () => {
    const { marks } = drawn(FOUR);
    for (const [side, sign] of [
      ['left', -1],
      ['right', 1],
    ] as const) {
      const measured = strokes(marks, `${side} edge`);
      expect(ends(measured)).toEqual([[sign * 16, -170, sign * 37.5, 80]]);
      expect(measured[0]!.style.dash).toBeUndefined();
      const held = strokes(marks, `${side} edge, not measured`);
      expect(ends(held)).toEqual([
        [sign * 16, -200, sign * 16, -170],
        [sign * 37.5, 80, sign * 37.5, 160],
      ]);
      expect(held.every(({ style }) => style.dash !== undefined)).toBe(true);
    }
    expect(words(marks)).toEqual(['left', 'right']);
  });

  it('draws curves that follow the opening between the levels', () => {
    const { place } = lacedOpening(FOUR);
    const [edge] = strokes(drawn(FOUR).marks, 'left edge');
    for (const segment of edge!.path.segments) {
      for (let t = 0; t <= 1; t += 1 / 8) {
        const { x, y } = pointOn(segment, t);
        expect((x - 100) * 2).toBeCloseTo(place('left', (y - 300) * 2, false).x, 6);
      }
    }
  });

  it('shades closed parts that reach from the edges outwards by as much on either side', () => {
    const { areas } = drawn(FOUR);
    const xs = areas.map(({ path }: Area) => path.segments.flatMap(({ start }) => start.x));
    expect(Math.min(...xs[0]!)).toBeCloseTo(100 - 37.5 / 2 - 18, 9);
    expect(Math.max(...xs[1]!)).toBeCloseTo(100 + 37.5 / 2 + 18, 9);
    for (const { path } of areas) expect(pathEnd(path)).toEqual(pathStart(path));
  });

  it('has one heavy line of its own where the edges meet, and says so', () => {
    const rows = [even(-100, 30), even(0, -30), even(80, 30)];
    const { marks } = drawn(rows);
    const meeting = strokes(marks, 'edges meet');
    expect(meeting).toHaveLength(1);
    const [[fromX, from, toX, to]] = ends(meeting) as [number[]];
    expect([fromX, toX]).toEqual([0, 0]);
    expect(from).toBeGreaterThan(-100);
    expect(from).toBeLessThan(0);
    expect(to).toBeGreaterThan(0);
    expect(to).toBeLessThan(80);
    const edges = strokes(marks, 'left edge');
    expect(meeting[0]!.style.width).toBeGreaterThan(edges[0]!.style.width);
    expect(ends(edges)).toEqual([
      [-15, -100, 0, from],
      [0, to, -15, 80],
    ]);
    expect(words(marks)).toContain('edges meet');
    const xs = meeting[0]!.path.segments.flatMap((s) => [0, 1 / 4, 1 / 2, 1].map((t) => pointOn(s, t).x));
    for (const x of xs) expect(x).toBeCloseTo(100, 9);
  });

  it('lets the edges meet off the centre back where one half is too large for both', () => {
    const { marks } = drawn([row(-100, { left: 10, right: -30 }), row(50, { left: 10, right: -30 })]);
    expect(ends(strokes(marks, 'edges meet'))).toEqual([[-20, -100, -20, 50]]);
    expect(strokes(marks, 'left edge')).toEqual([]);
  });

  it('draws one side alone, up to the centre back and no further', () => {
    const { marks, areas } = drawn([row(-100, { left: 25 }, 25), row(0, { left: -10 }, 25), row(80, { left: 20 }, 25)]);
    expect(areas).toHaveLength(1);
    expect(words(marks)).toEqual(['past the centre', 'left']);
    expect(strokes(marks, 'right edge')).toEqual([]);
    expect(ends(strokes(marks, 'left edge'))[0]!.slice(0, 2)).toEqual([-25, -100]);
    expect(ends(strokes(marks, 'past the centre'))[0]![0]).toBe(0);
    expect(ends(strokes(marks, 'gap wanted, left'))).toEqual([[-25, -200, -25, 160]]);
  });

  it('holds a single level from top to bottom, dashed', () => {
    const { marks } = drawn([even(0, 44)]);
    expect(strokes(marks, 'left edge')).toEqual([]);
    expect(ends(strokes(marks, 'left edge, not measured'))).toEqual([[-22, -200, -22, 160]]);
  });

  it('draws the gap wanted about the centre back, whatever the halves are', () => {
    const rows = [row(-100, { left: 40, right: 5 }, 50), row(80, { left: 40, right: 5 }, 80)];
    const { marks } = drawn(rows);
    expect(ends(strokes(marks, 'gap wanted, left'))).toEqual([[-25, -200, -40, 160]]);
    expect(ends(strokes(marks, 'gap wanted, right'))).toEqual([[25, -200, 40, 160]]);
    expect(ends(strokes(marks, 'centre back')).map(([x, , to]) => [x, to])).toEqual([[0, 0]]);
    expect(backReach(rows)).toBe(40);
  });

  it('lets each edge run as far as its own side does', () => {
    const spans = { left: SPAN, right: { top: -210, bottom: 140 } };
    const { marks } = lacedBack(FOUR, { ...PLACE, spans });
    expect(ends(strokes(marks, 'left edge, not measured'))[0]![1]).toBe(-200);
    expect(ends(strokes(marks, 'right edge, not measured'))[0]![1]).toBe(-210);
    expect(ends(strokes(marks, 'right edge, not measured'))[1]![3]).toBe(140);
  });
});
