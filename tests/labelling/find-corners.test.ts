import { describe, expect, it } from 'vitest';
import { CORNER_NAMES } from '../../src/labelling/label-answers.ts';
import { findCorners } from '../../src/labelling/find-corners.ts';
import { scaling, translation } from '../../src/geometry/matrix.ts';
import type { Path } from '../../src/geometry/path.ts';
import { pathStart } from '../../src/geometry/path.ts';
import { reversePath } from '../../src/geometry/reverse-path.ts';
import { transformPath } from '../../src/geometry/transform-path.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import { circle } from '../support/shapes.ts';
import { allShapes } from '../support/shaped-panels.ts';
import { box, closed, open, type Place } from './drawn.ts';

const places = (outline: Path, line: 'cutting' | 'stitching' = 'stitching'): Place[] => {
  const { corners } = findCorners(outline, line, {}, 'front');
  return CORNER_NAMES.map((name) => [corners[name].at.x, corners[name].at.y]);
};

const mirror = (outline: Path): Path => reversePath(transformPath(outline, scaling(-1, 1)));

/** A panel whose back seam leaves the top by a slope, curves out by `bulge` at y 32 and runs smoothly on to the bottom. */
const bulging = (slope: number, bulge: number): Path => ({
  segments: [
    ...open([0, 0], [100, 4]).segments,
    {
      kind: 'cubic',
      start: { x: 100, y: 4 },
      startHandle: { x: 100 + 9 * slope, y: 13 },
      endHandle: { x: 100 + bulge + 1, y: 22 },
      end: { x: 100 + bulge, y: 32 },
    },
    {
      kind: 'cubic',
      start: { x: 100 + bulge, y: 32 },
      startHandle: { x: 100 + bulge - 8, y: 112 },
      endHandle: { x: 80, y: 200 },
      end: { x: 100, y: 300 },
    },
    ...open([100, 300], [0, 300], [0, 0]).segments,
  ],
});

/** The same outline starting at another of its nodes. */
const startingAt = (outline: Path, first: number): Path => ({
  segments: [...outline.segments.slice(first), ...outline.segments.slice(0, first)],
});

describe('the four corners', () => {
  it.each(allShapes.map((make) => [make().name, make()] as const))(
    'of the %s panel, wherever its outline begins',
    (_, panel) => {
      const wanted = panel.edges.map(({ path }) => [pathStart(path).x, pathStart(path).y]);
      const outline = outlineOf(panel);
      for (let first = 0; first < outline.segments.length; first += 1) {
        expect(places(startingAt(outline, first))).toEqual(wanted);
      }
    },
  );

  it.each(allShapes.map((make) => [make().name, make()] as const))('of the %s panel seen from its back', (_, panel) => {
    const [topFront, topBack, bottomBack, bottomFront] = panel.edges.map(({ path }): Place => [
      -pathStart(path).x,
      pathStart(path).y,
    ]);
    const outline = mirror(outlineOf(panel));
    const found = places(outline).map(([x, y]) => [x + 0, y]);
    expect(found).toEqual([topBack, topFront, bottomFront, bottomBack].map((place) => [place![0] + 0, place![1]]));
  });

  it('of a panel with a steep underarm, a tabbed bottom and corners in its seams', () => {
    const outline = closed(
      [0, 0],
      [60, 80],
      [52, 200],
      [66, 300],
      [66, 340],
      [48, 340],
      [48, 310],
      [30, 310],
      [30, 340],
      [6, 340],
      [-4, 300],
      [8, 200],
    );
    expect(places(outline)).toEqual([
      [0, 0],
      [60, 80],
      [66, 340],
      [6, 340],
    ]);
  });

  it('of a cutting line whose corners are bevelled: where the neighbours meet', () => {
    const bevelled = closed([0, 12], [12, 0], [88, 0], [100, 12], [100, 285], [85, 300], [20, 300], [0, 280]);
    const { corners, findings } = findCorners(bevelled, 'cutting', {}, 'front');
    expect(CORNER_NAMES.map((name) => [corners[name].at.x, corners[name].at.y])).toEqual([
      [0, 0],
      [100, 0],
      [100, 300],
      [0, 300],
    ]);
    expect(findings.map(({ kind, where }) => `${kind}: ${where}`)).toEqual([
      'corner-run-on: panel front, top-front',
      'corner-run-on: panel front, top-back',
      'corner-run-on: panel front, bottom-back',
      'corner-run-on: panel front, bottom-front',
    ]);
    expect(findings[0]!.cure).toBe(
      "if that is the panel's own shape, place the corner: --corner front=top-front:6mm,6mm",
    );
  });

  it('of a cutting line whose corners a drawing program rounded', () => {
    const k = 0.5522847498 * 15;
    const outline: Path = {
      segments: [
        { kind: 'line', start: { x: 15, y: 0 }, end: { x: 85, y: 0 } },
        {
          kind: 'cubic',
          start: { x: 85, y: 0 },
          startHandle: { x: 85 + k, y: 0 },
          endHandle: { x: 100, y: 15 - k },
          end: { x: 100, y: 15 },
        },
        ...closed([100, 15], [100, 300], [0, 300], [0, 15]).segments.slice(0, 3),
        {
          kind: 'cubic',
          start: { x: 0, y: 15 },
          startHandle: { x: 0, y: 15 - k },
          endHandle: { x: 15 - k, y: 0 },
          end: { x: 15, y: 0 },
        },
      ],
    };
    const found = places(outline, 'cutting').map(([x, y]) => [
      Math.round(x * 1e6) / 1e6 + 0,
      Math.round(y * 1e6) / 1e6 + 0,
    ]);
    expect(found).toEqual([
      [0, 0],
      [100, 0],
      [100, 300],
      [0, 300],
    ]);
  });

  it.each([-20, -8, 0, 8, 20, 35])('where a seam leaves the top by %d degrees and bulges smoothly below', (degrees) => {
    const slope = Math.tan((degrees * Math.PI) / 180);
    for (const bulge of [2, 5, 9, 14, 20]) {
      const wanted = [
        [0, 0],
        [100, 4],
        [100, 300],
        [0, 300],
      ];
      const outline = bulging(slope, bulge);
      expect(places(outline)).toEqual(wanted);
      expect(places(outline, 'cutting')).toEqual(wanted);
      const { corners, findings } = findCorners(mirror(outline), 'stitching', {}, 'front');
      expect(corners['top-front'].at).toEqual({ x: -100, y: 4 });
      expect(findings).toEqual([]);
    }
  });

  it('below a steep top, far from the corner of the box, where the seam bulges', () => {
    const { segments } = bulging(0.14, 9);
    const steep = open([0, 300], [0, -110], [100, 4]).segments;
    const outline: Path = { segments: [...steep, ...segments.slice(1, -1)] };
    expect(places(outline)).toEqual([
      [0, -110],
      [100, 4],
      [100, 300],
      [0, 300],
    ]);
  });

  it('at a true turn rather than at a smooth bend just below it that turns by more', () => {
    const steep = (40 * Math.PI) / 180;
    const [x, y] = [100 + 8 * Math.cos(steep), 8 * Math.sin(steep)];
    const outline: Path = {
      segments: [
        ...open([0, 0], [100, 0], [x, y]).segments,
        {
          kind: 'cubic',
          start: { x, y },
          startHandle: { x: x + 10 * Math.cos(steep), y: y + 10 * Math.sin(steep) },
          endHandle: { x: x + 10, y: y + 22 },
          end: { x: x + 8, y: y + 34 },
        },
        ...open([x + 8, y + 34], [80, 300], [0, 300], [0, 0]).segments,
      ],
    };
    expect(places(outline)[1]).toEqual([100, 0]);
    expect(places(outline, 'cutting')[1]).toEqual([100, 0]);
  });

  it('at the middle of the bend where a corner of a stitching line is rounded', () => {
    const k = 0.5522847498 * 20;
    const outline: Path = {
      segments: [
        ...open([0, 0], [80, 0]).segments,
        {
          kind: 'cubic',
          start: { x: 80, y: 0 },
          startHandle: { x: 80 + k, y: 0 },
          endHandle: { x: 100, y: 20 - k },
          end: { x: 100, y: 20 },
        },
        ...open([100, 20], [100, 300], [0, 300], [0, 0]).segments,
      ],
    };
    const [x, y] = places(outline)[1]!;
    expect(x).toBeCloseTo(80 + 20 * Math.SQRT1_2, 2);
    expect(y).toBeCloseTo(20 - 20 * Math.SQRT1_2, 2);
  });

  it('are doubted with both places as they lie on the drawing', () => {
    const outline = closed([0, 11], [12, 0], [300, 0], [300, 300], [0, 300]);
    const { findings } = findCorners(outline, 'stitching', {}, 'front', translation(-50.04, 30));
    expect(findings).toMatchObject([
      {
        kind: 'corner-doubtful',
        where: 'panel front, top-front',
        message: 'two turns could be this corner, 16.3 mm apart; taken 50mm,-19mm',
        cure: 'if wrong: --corner front=top-front:62mm,-30mm',
      },
    ]);
  });

  it('leaves a small chamfer in a stitching line alone', () => {
    const outline = closed([0, 12], [12, 0], [100, 0], [100, 300], [0, 300]);
    expect([
      [0, 12],
      [12, 0],
    ]).toContainEqual(places(outline)[0]);
  });

  it('can be given by hand, and snap to a joint', () => {
    const given = { 'top-front': { x: 40.5, y: 0.3 } };
    const { corners } = findCorners(box(0, 0, 100, 300), 'stitching', given, 'front');
    expect(corners['top-front'].at).toEqual({ x: 40.5, y: 0 });
    const snapped = findCorners(box(0, 0, 100, 300), 'stitching', { 'top-front': { x: 0.5, y: 0.3 } }, 'front');
    expect(snapped.corners['top-front'].at).toEqual({ x: 0, y: 0 });
  });

  it('given far from the outline are refused', () => {
    expect(() => findCorners(box(0, 0, 100, 300), 'stitching', { 'top-back': { x: 50, y: 50 } }, 'front')).toThrow(
      /50\.0 mm away/,
    );
  });

  it('of a shape without corners have to be given', () => {
    expect(() => findCorners(circle(100), 'stitching', {}, 'front')).toThrow(
      /cannot tell the four corners of panel front/,
    );
  });
});
