import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { signedArea } from '../../src/geometry/area.ts';
import { isClosed } from '../../src/geometry/path.ts';
import { drawingOf, millimetres } from './drawn-svg.ts';

const SQUARE = ['M10 10H90', 'M90 10V90', 'M90 90H10', 'M10 90V10'];
const paths = (data: readonly string[]): string => data.map((d, i) => `<path id="p${i}" d="${d}"/>`).join('');

/** Place number i of 2,000 round a circle. */
const at = (i: number): string => {
  const angle = (2 * Math.PI * i) / 2000;
  return `${100 + 90 * Math.cos(angle)} ${100 + 90 * Math.sin(angle)}`;
};

describe('open pieces whose ends meet', () => {
  it('become one outline with the id of their group, in any order and direction', () => {
    const turned = ['M90 90H10', 'M10 10V90', 'M10 10H90', 'M90 90V10'];
    for (const data of [SQUARE, turned]) {
      const { outlines, strokes } = drawingOf(millimetres(`<g id="front">${paths(data)}</g>`));
      expect(outlines.map(({ id }) => id)).toEqual(['front']);
      expect(isClosed(outlines[0]!.path)).toBe(true);
      expect(signedArea(outlines[0]!.path)).toBe(6400);
      expect(strokes).toEqual([]);
    }
  });

  it('are brought to the crossing of their lines where they fall short or run over by up to 0.5 mm', () => {
    const { outlines } = drawingOf(
      millimetres(paths(['M10.3 10H90.2', 'M90 9.8V90', 'M90 89.9H9.9', 'M10 90.1V10.3'])),
    );
    const corners = outlines[0]!.path.segments.map(({ start: { x, y } }) => [
      Math.round(x * 1e6) / 1e6,
      Math.round(y * 1e6) / 1e6,
    ]);
    expect(corners.toSorted()).toEqual([
      [10, 10],
      [10, 89.9],
      [90, 10],
      [90, 89.9],
    ]);
  });

  it('are joined in the middle where their lines run on the same way', () => {
    const { outlines } = drawingOf(millimetres(paths(['M10 10H50', 'M50.4 10H90', ...SQUARE.slice(1)])));
    const xs = outlines[0]!.path.segments.map(({ start }) => start.x);
    expect(xs).toContainEqual(expect.closeTo(50.2, 9));
  });

  it('stay open where they are farther apart than 0.5 mm', () => {
    const { outlines, strokes } = drawingOf(millimetres(paths(['M10.6 10H90', ...SQUARE.slice(1)])));
    expect(outlines).toEqual([]);
    expect(strokes.length).toBe(4);
  });

  it('one line that ends where it starts is closed without a Z, unless it is too short to tell', () => {
    const { outlines, strokes } = drawingOf(
      millimetres('<path id="a" d="M10 10H90V90H10V10.4"/><path d="M200 10 l0.2 0.2 l0.1 -0.2"/>'),
    );
    expect(outlines.map(({ id }) => id)).toEqual(['a']);
    expect(strokes.length).toBe(1);
  });

  it('leave out a level drawn from joint to joint, and a notch that starts on a joint', () => {
    const sides = ['M10 10H90', 'M90 10V50', 'M90 50V90', 'M90 90H10', 'M10 90V50', 'M10 50V10'];
    const { outlines, strokes } = drawingOf(
      millimetres(
        `<g id="front">${paths(sides)}</g><path class="waist" d="M10 50H90"/><path class="notch" d="M90 10l-5 5"/>`,
      ),
    );
    expect(outlines.map(({ id, path }) => [id, signedArea(path)])).toEqual([['front', 6400]]);
    expect(strokes.map(({ names }) => names[0])).toEqual(['waist', 'notch']);
    expect(strokes.map(({ path }) => Math.round(pathLength(path)))).toEqual([80, 7]);
  });

  it('keep panels that touch in a corner apart', () => {
    const other = ['M90 90H170', 'M170 90V170', 'M170 170H90', 'M90 170V90'];
    const { outlines } = drawingOf(millimetres(`<g id="front">${paths(SQUARE)}</g><g id="side">${paths(other)}</g>`));
    expect(outlines.map(({ id, path }) => [id, signedArea(path)])).toEqual([
      ['front', 6400],
      ['side', 6400],
    ]);
  });

  it('that close nothing stay as they were drawn', () => {
    const { outlines, strokes } = drawingOf(
      millimetres('<path class="waist" d="M0 50H50"/><path class="bust" d="M50 50H100"/><path d="M0 50H50"/>'),
    );
    expect(outlines).toEqual([]);
    expect(strokes.map(({ names }) => names[0])).toEqual(['waist', 'bust', undefined]);
  });

  it('are joined even if each is shorter than the gap, where they meet exactly', () => {
    const lines = Array.from({ length: 2000 }, (_, i) => `<path d="M${at(i)}L${at((i + 1) % 2000)}"/>`);
    const { outlines, strokes } = drawingOf(millimetres(`<g id="round">${lines.join('')}</g>`));
    expect(outlines.map(({ id }) => id)).toEqual(['round']);
    expect(signedArea(outlines[0]!.path)).toBeCloseTo(Math.PI * 90 ** 2, 0);
    expect(strokes).toEqual([]);
  });

  it('close whatever order they come in, however they are turned, scaled and moved', () => {
    const curved = ['M10 10C40 0 60 20 90 10', 'M90 10C110 40 80 60 90 90', 'M90 90L10 90', 'M10 90C0 60 30 40 10 10'];
    const reversed = [
      'M90 10C60 20 40 0 10 10',
      'M90 90C80 60 110 40 90 10',
      'M10 90L90 90',
      'M10 10C30 40 0 60 10 90',
    ];
    const truth = signedArea(
      drawingOf(millimetres(`<path d="M10 10C40 0 60 20 90 10C110 40 80 60 90 90L10 90C0 60 30 40 10 10Z"/>`))
        .outlines[0]!.path,
    );
    fc.assert(
      fc.property(
        fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 }),
        fc.tuple(fc.boolean(), fc.boolean(), fc.boolean(), fc.boolean()),
        fc.integer({ min: 0, max: 359 }),
        fc.constantFrom(-3, -1, 0.5, 1, 4),
        (order, backwards, angle, scale) => {
          const data = order.map((i) => (backwards[i]! ? reversed : curved)[i]!);
          const { outlines, strokes } = drawingOf(
            millimetres(
              `<g transform="translate(300 40) rotate(${angle}) scale(${scale} ${Math.abs(scale)})">${paths(data)}</g>`,
            ),
          );
          expect(strokes).toEqual([]);
          expect(outlines.length).toBe(1);
          expect(signedArea(outlines[0]!.path) / (truth * scale * scale)).toBeCloseTo(1, 9);
        },
      ),
    );
  });
});
