/** Path data and transforms, read here and by another library: svgpath (grammar, curves, transforms). */
import * as fc from 'fast-check';
import svgpath from 'svgpath';
import { describe, expect, it } from 'vitest';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { flattenPath } from '../../src/geometry/flatten.ts';
import { IDENTITY, scaling } from '../../src/geometry/matrix.ts';
import type { Path } from '../../src/geometry/path.ts';
import { distance, point, type Point } from '../../src/geometry/point.ts';
import { cubic, line, type Segment } from '../../src/geometry/segment.ts';
import { drawPath } from '../../src/svg/draw-path.ts';
import { parsePathData } from '../../src/svg/parse-path-data.ts';
import { Pen } from '../../src/svg/pen.ts';
import { transformList } from '../../src/svg/transform-list.ts';

const FIELDS: Readonly<Record<string, readonly string[]>> = {
  M: ['x', 'y'],
  L: ['x', 'y'],
  H: ['x'],
  V: ['y'],
  C: ['x1', 'y1', 'x2', 'y2', 'x', 'y'],
  S: ['x2', 'y2', 'x', 'y'],
  Q: ['x1', 'y1', 'x', 'y'],
  T: ['x', 'y'],
  A: ['rx', 'ry', 'xAxisRotation', 'largeArc', 'sweep', 'x', 'y'],
  Z: [],
};

const number = fc.integer({ min: -2000, max: 2000 }).map((n) => n / 16);
const radius = fc.integer({ min: 16, max: 800 }).map((n) => n / 16);
const flag = fc.constantFrom(0, 1);

const command = (letters: string) =>
  fc.constantFrom(...letters).chain((letter) => {
    const upper = letter.toUpperCase();
    const values = FIELDS[upper]!.map((field) =>
      field === 'rx' || field === 'ry' ? radius : field === 'largeArc' || field === 'sweep' ? flag : number,
    );
    return fc.tuple(fc.constant(letter), fc.tuple(...values));
  });

/** Numbers written in the many ways that the grammar allows, signs and points as separators among them. */
const written = (letter: string, values: readonly number[], style: number): string => {
  const texts = values.map((v, i) => {
    const isFlag = letter.toUpperCase() === 'A' && (i === 3 || i === 4);
    if (isFlag || style % 3 === 0) return String(v);
    if (style % 3 === 1) return String(v).replace(/^(-?)0\./, '$1.');
    return v === 0 ? '0' : v.toExponential();
  });
  const gap = [' ', ',', '\n\t', ' , '][style % 4]!;
  return letter + texts.map((text, i) => (i === 0 ? '' : text.startsWith('-') && style % 2 ? '' : gap) + text).join('');
};

const anyData = (letters: string) =>
  fc
    .tuple(command('Mm'), fc.array(fc.tuple(command(letters), fc.nat(11)), { minLength: 1, maxLength: 12 }))
    .map(([[first, start], rest]) =>
      [written(first, start, 0), ...rest.map(([[letter, values], style]) => written(letter, values, style))].join(' '),
    );

const drawn = (data: string, matrix = IDENTITY): readonly { readonly path: Path; readonly closed: boolean }[] => {
  const pen = new Pen(matrix);
  drawPath(
    parsePathData(data, () => 'here'),
    pen,
  );
  return pen.finish();
};

/** Two thirds of the way from `p` to `q`. */
const lift = (p: Point, q: Point): Point => point(p.x + (2 / 3) * (q.x - p.x), p.y + (2 / 3) * (q.y - p.y));

/** Segments as svgpath has them: quadratics raised to cubics, closing lines added. */
const segmentsOf = (path: ReturnType<typeof svgpath>): Segment[] => {
  const segments: Segment[] = [];
  let [start, from] = [point(0, 0), point(0, 0)];
  const add = (segment: Segment): void => {
    if (distance(segment.start, segment.end) > 0 || segment.kind === 'cubic') segments.push(segment);
    from = segment.end;
  };
  path
    .abs()
    .unshort()
    .iterate(([letter, ...v]) => {
      const at = (i: number): Point => point(v[i] as number, v[i + 1] as number);
      if (letter === 'M') [start, from] = [at(0), at(0)];
      else if (letter === 'L') add(line(from, at(0)));
      else if (letter === 'H') add(line(from, point(v[0] as number, from.y)));
      else if (letter === 'V') add(line(from, point(from.x, v[0] as number)));
      else if (letter === 'C') add(cubic(from, at(0), at(2), at(4)));
      else if (letter === 'Q') add(cubic(from, lift(from, at(0)), lift(at(2), at(0)), at(2)));
      else add(line(from, start));
    });
  return segments;
};

/** How far two segments lie apart at most, by their points; a line and a straight cubic by their ends and the cubic's excess length. */
const apart = (a: Segment, b: Segment): number => {
  const ends = Math.max(distance(a.start, b.start), distance(a.end, b.end));
  if (a.kind === 'line' && b.kind === 'line') return ends;
  if (a.kind === 'cubic' && b.kind === 'cubic') {
    return Math.max(ends, distance(a.startHandle, b.startHandle), distance(a.endHandle, b.endHandle));
  }
  if (b.kind === 'line') return Infinity;
  const reach = distance(b.start, b.startHandle) + distance(b.startHandle, b.endHandle) + distance(b.endHandle, b.end);
  return Math.max(ends, reach - distance(b.start, b.end));
};

describe('path data', () => {
  it('draws the same curves as svgpath, relative, smooth and repeated commands included', () => {
    fc.assert(
      fc.property(anyData('MmLlHhVvCcSsQqTtZz'), (data) => {
        const theirs = segmentsOf(svgpath(data));
        const ours = drawn(data).flatMap(({ path }) => path.segments);
        expect(ours.length).toBe(theirs.length);
        ours.forEach((segment, i) => expect(apart(segment, theirs[i]!)).toBeLessThan(1e-9));
      }),
    );
  });

  it('draws the same arcs as svgpath, to that library’s own error of 0.3 in a thousand', () => {
    fc.assert(
      fc.property(anyData('Aa'), (data) => {
        const ours = drawn(data).flatMap(({ path }) => path.segments);
        const theirs = segmentsOf(svgpath(data).unarc());
        if (ours.length === 0 || theirs.length === 0) return;
        const size = Math.max(...theirs.flatMap(({ start, end }) => [distance(start, end), 50]));
        const ourPath = { segments: ours };
        for (const p of flattenPath({ segments: theirs }, 0.2)) {
          expect(nearestPoint(ourPath, p).distance).toBeLessThan(3e-4 * size + 0.001);
        }
        for (const p of flattenPath(ourPath, 0.2)) {
          expect(nearestPoint({ segments: theirs }, p).distance).toBeLessThan(3e-4 * size + 0.001);
        }
      }),
      { numRuns: 40 },
    );
  });
});

describe('transforms', () => {
  const value = fc.integer({ min: -300, max: 300 }).map((n) => n / 8);
  const anyFunction = fc.oneof(
    fc.tuple(value, value, value, value, value, value).map((v) => `matrix(${v.join(' ')})`),
    fc.array(value, { minLength: 1, maxLength: 2 }).map((v) => `translate(${v.join(',')})`),
    fc.array(value, { minLength: 1, maxLength: 2 }).map((v) => `scale( ${v.join(' , ')} )`),
    value.map((v) => `rotate(${v})`),
    fc.tuple(value, value, value).map((v) => `rotate(${v.join(' ')})`),
    value.map((v) => `skewX(${v})`),
    value.map((v) => `skewY(${v})`),
  );

  it('move points as svgpath moves them, lists included', () => {
    fc.assert(
      fc.property(fc.array(anyFunction, { minLength: 1, maxLength: 4 }), value, value, (functions, x, y) => {
        const text = functions.join(' ');
        const { a, b, c, d, e, f } = transformList(text, 'here');
        const [start] = segmentsOf(svgpath(`M${x} ${y}L${x + 1} ${y}`).transform(text));
        const ours = point(a * x + c * y + e, b * x + d * y + f);
        const size = 1 + Math.abs(ours.x) + Math.abs(ours.y);
        // A line that is scaled to a point is no line to that library.
        fc.pre(start !== undefined);
        expect(distance(start!.start, ours) / size).toBeLessThan(1e-6);
      }),
    );
  });

  it('are applied to curves exactly', () => {
    const data = 'M10 10C20 40 60 50 80 10';
    const theirs = segmentsOf(svgpath(data).transform('scale(-2 3)'));
    expect(drawn(data, scaling(-2, 3))[0]!.path.segments).toEqual(theirs);
  });
});
