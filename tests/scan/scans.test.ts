/** The scans made up for the other tests, checked against arithmetic that knows nothing of how they are drawn. */
import { describe, expect, it } from 'vitest';
import { isInside, signedArea } from '../../src/geometry/area.ts';
import { tangentOn } from '../../src/geometry/evaluate.ts';
import { flattenPath } from '../../src/geometry/flatten.ts';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { isClosed } from '../../src/geometry/path.ts';
import type { Point } from '../../src/geometry/point.ts';
import { line } from '../../src/geometry/segment.ts';
import { selfCrossings } from '../../src/geometry/intersect.ts';
import { transformPoint } from '../../src/geometry/transform-path.ts';
import { turn } from '../../src/geometry/vector.ts';
import { LIGHT, type Picture } from '../../src/scan/picture.ts';
import { readPicture } from '../../src/scan/read-picture.ts';
import { closeSheet, fullSheet, oddCases, scanCases, smallSheet, wideSheet } from '../support/scans/cases.ts';
import { samplesOf } from '../support/scans/dense-outline.ts';
import { encodeScan } from '../support/scans/encode-scan.ts';
import { truthOf } from '../support/scans/lay-out.ts';
import { lightOf } from '../support/scans/light-of.ts';
import { drawScan, makeScan } from '../support/scans/make-scan.ts';
import { makeStrips } from '../support/scans/make-strips.ts';
import { ALL_PANELS, type ScanPanel } from '../support/scans/scan-panels.ts';

const polygonPanel = (corners: readonly Point[]): ScanPanel => ({
  name: 'polygon',
  outline: { segments: corners.map((p, i) => line(p, corners[(i + 1) % corners.length]!)) },
  corners,
  notches: [],
  grain: line({ x: -5, y: -5 }, { x: -5, y: -6 }),
  arrows: [],
  across: [],
  letters: [],
});

/** A long upright rectangle from x = 4 to x = 16 that reaches beyond the sheet above and below. */
const STRIP = polygonPanel([
  { x: 4, y: -10 },
  { x: 16, y: -10 },
  { x: 16, y: 40 },
  { x: 4, y: 40 },
]);

const PLAIN = { dpi: 254, sheet: { width: 20, height: 20 }, panels: [{ panel: STRIP, at: { x: 0, y: 0 } }] };

const rowLight = ({ width, grey }: Picture, row: number): number[] =>
  [...grey.subarray(row * width, (row + 1) * width)].map((g) => LIGHT[g]!);

/** Where light first passes a level upwards (downwards) along a row, straight between the middles of pixels. */
const crossing = (light: readonly number[], level: number, from = 1): number => {
  for (let x = from; x < light.length; x += 1) {
    const [a, b] = [light[x - 1]! - level, light[x]! - level];
    if (a * b <= 0 && a !== b) return x - 0.5 + a / (a - b);
  }
  throw new Error('no crossing');
};

describe('a made-up scan', () => {
  it('has the half-level of a straight paper edge where the affine map puts the edge', () => {
    for (const [turnBy, scaleX, shear] of [
      [0.8, 1.0137, 0],
      [1.3, 1.02, 0.004],
      [-1.7, 0.98, -0.003],
    ] as const) {
      const spec = {
        kind: 'cutout' as const,
        ...PLAIN,
        turn: turnBy,
        scaleX,
        shear,
        ground: 70,
        paper: 238,
        blur: 2.2,
      };
      const { picture, truth } = drawScan(spec);
      const half = (lightOf(70) + lightOf(238)) / 2;
      // By hand: turned about the middle, sheared, scaled by 10 px/mm; the left edge is x = 4, so u = (4 - 10) on it.
      const angle = (turnBy * Math.PI) / 180;
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      let sum = 0;
      let rows = 0;
      for (let row = 20; row < picture.height - 20; row += 1) {
        const v = (row + 0.5 - picture.height / 2) / 10;
        const along = (v - -6 * s) / c;
        const x = picture.width / 2 + 10 * (scaleX * (-6 * c - along * s) + shear * v);
        const off = crossing(rowLight(picture, row), half) - x;
        expect(Math.abs(off)).toBeLessThan(0.04);
        sum += off;
        rows += 1;
      }
      expect(Math.abs(sum / rows)).toBeLessThan(0.005);
      expect(truth.width).toBe(200);
    }
  });

  it('takes as much light away across a line as its width and contrast say', () => {
    for (const lineWidth of [0.35, 0.5, 0.7]) {
      const { picture } = drawScan({ kind: 'line', ...PLAIN, lineWidth, paper: 238, ink: 38, turn: 1, blur: 0.75 });
      const [white, black] = [LIGHT[238]!, LIGHT[38]!];
      let mean = 0;
      for (let row = 40; row < 160; row += 1) {
        const left = rowLight(picture, row).slice(0, 100);
        mean += left.reduce((sum, l) => sum + (white - l) / (white - black), 0) / 120;
      }
      // Across a line turned by 1 degree a row is longer by 1 / cos.
      expect(mean).toBeCloseTo((lineWidth * 10) / Math.cos(Math.PI / 180), 1);
      expect(Math.abs(mean - (lineWidth * 10) / Math.cos(Math.PI / 180))).toBeLessThan(0.02);
    }
  });

  it('has the middle of a line, by its two half-levels, where the outline is', () => {
    const { picture } = drawScan({ kind: 'line', ...PLAIN, turn: 2, lineWidth: 0.5, paper: 238, ink: 38, blur: 1.2 });
    const half = (LIGHT[238]! + LIGHT[38]!) / 2;
    const angle = (2 * Math.PI) / 180;
    let [off, wide] = [0, 0];
    for (let row = 40; row < 160; row += 1) {
      // The line x = 4, turned about (10, 10): through the middle's height at 100 - 60 / cos, then leaning to the left.
      const x = 100 - 60 / Math.cos(angle) - (row + 0.5 - 100) * Math.tan(angle);
      const light = rowLight(picture, row);
      const outer = crossing(light, half);
      const inner = crossing(light, half, Math.ceil(outer) + 2);
      off += ((outer + inner) / 2 - x) / 120;
      wide += (inner - outer) / 120;
    }
    expect(Math.abs(off)).toBeLessThan(0.005);
    expect(wide).toBeCloseTo(5 / Math.cos(angle), 1);
  });

  it('covers pixels exactly: the light of a whole polygon is its area', () => {
    const corners = [
      { x: 3.137, y: 2.291 },
      { x: 16.713, y: 5.559 },
      { x: 11.237, y: 17.931 },
      { x: 9.037, y: 8.131 },
    ];
    const spec = { kind: 'cutout' as const, ...PLAIN, panels: [{ panel: polygonPanel(corners), at: { x: 0, y: 0 } }] };
    // Ground at no light and paper at full: the grain's ink lies outside.
    const { picture } = drawScan({ ...spec, ground: 0, paper: 255, blur: 0.6, turn: 7 });
    const light = picture.grey.reduce((sum, g) => sum + LIGHT[g]!, 0);
    const area = corners.reduce((sum, p, i) => {
      const q = corners[(i + 1) % corners.length]!;
      return sum + (p.x * q.y - p.y * q.x) / 2;
    }, 0);
    expect(Math.abs(light / 100 - area) / area).toBeLessThan(2e-4);
  });

  it('prints the corners of the square where the map says, sharp', () => {
    const spec = {
      kind: 'line' as const,
      dpi: 254,
      sheet: { width: 40, height: 40 },
      panels: [],
      square: { side: 20, at: { x: 10, y: 10 } },
      lineWidth: 0.5,
      blur: 0,
    };
    const { picture, truth } = drawScan(spec);
    const at = truth.square!.corners.map((p) => transformPoint(p, truth.toPicture));
    expect(at).toEqual([
      { x: 100, y: 100 },
      { x: 300, y: 100 },
      { x: 300, y: 300 },
      { x: 100, y: 300 },
    ]);
    // 5 px wide about 100: half of pixel 97 to half of pixel 102 along both sides; the mitred corner a quarter of its pixel.
    const [white, black] = [LIGHT[238]!, LIGHT[38]!];
    const ink = (x: number, y: number): number => (white - LIGHT[picture.grey[y * 400 + x]!]!) / (white - black);
    expect(ink(97, 97)).toBeCloseTo(0.25, 2);
    expect(ink(150, 97)).toBeCloseTo(0.5, 2);
    expect(ink(98, 98)).toBe(1);
    expect(ink(102, 102)).toBeCloseTo(0.75, 2);
    expect(ink(103, 103)).toBe(0);
    expect(ink(96, 96)).toBe(0);
  });

  it('is the same for the same seed and another for another', async () => {
    const spec = {
      kind: 'line' as const,
      dpi: 100,
      ...smallSheet(),
      noise: 3,
      dust: 20,
      jpeg: 75,
      worn: { gaps: 3, creases: 2, pencil: 2, faded: 1 },
    };
    const one = await makeScan({ ...spec, seed: 5 });
    const same = await makeScan({ ...spec, seed: 5 });
    const other = await makeScan({ ...spec, seed: 6 });
    expect(Buffer.compare(one.picture.grey, same.picture.grey)).toBe(0);
    expect(Buffer.compare(one.picture.grey, other.picture.grey)).not.toBe(0);
  });

  it('has noise of the spread that was asked for, even and free of rows', () => {
    const { picture } = drawScan({ kind: 'line', ...PLAIN, panels: [], noise: 3, paper: 200 });
    const mean = picture.grey.reduce((sum, g) => sum + g, 0) / picture.grey.length;
    const square = picture.grey.reduce((sum, g) => sum + (g - mean) ** 2, 0) / picture.grey.length;
    expect(mean).toBeCloseTo(200, 0);
    // Rounding adds a twelfth.
    expect(Math.sqrt(square)).toBeGreaterThan(2.9);
    expect(Math.sqrt(square)).toBeLessThan(3.15);
    let beside = 0;
    let below = 0;
    for (let i = 200; i < picture.grey.length - 201; i += 1) {
      beside += (picture.grey[i]! - mean) * (picture.grey[i + 1]! - mean);
      below += (picture.grey[i]! - mean) * (picture.grey[i + 200]! - mean);
    }
    expect(Math.abs(beside / picture.grey.length)).toBeLessThan(0.2);
    expect(Math.abs(below / picture.grey.length)).toBeLessThan(0.2);
  });

  it('does not change where one band of rows ends and the next begins', () => {
    // 3000 rows of 500 pixels are drawn in two bands; a strip of full height looks the same in all of them.
    const spec = { kind: 'cutout' as const, dpi: 254, sheet: { width: 50, height: 300 }, blur: 2 };
    const tall = polygonPanel([
      { x: 13.33, y: -10 },
      { x: 30, y: -10 },
      { x: 30, y: 310 },
      { x: 13.33, y: 310 },
    ]);
    const { picture } = drawScan({ ...spec, panels: [{ panel: tall, at: { x: 0, y: 0 } }] });
    const first = Buffer.from(picture.grey.subarray(0, 500));
    const other: number[] = [];
    for (let row = 1; row < 3000; row += 1) {
      if (Buffer.compare(first, picture.grey.subarray(row * 500, row * 500 + 500)) !== 0) other.push(row);
    }
    expect(other).toEqual([]);
  });

  it('goes into files and comes back as it was', async () => {
    const { picture } = await makeScan({ kind: 'line', dpi: 100, ...smallSheet(), noise: 2 });
    for (const format of ['png', 'tiff'] as const) {
      const back = await readPicture(await encodeScan(picture, format, { density: 300 }), `scan.${format}`);
      expect(back.picture.width).toBe(picture.width);
      expect(Buffer.compare(Buffer.from(back.picture.grey), picture.grey)).toBe(0);
      expect(back.dpi).toBeCloseTo(300, 0);
    }
    const flat = await makeScan({ kind: 'line', dpi: 100, ...smallSheet(), threshold: 140 });
    for (const format of ['png', 'tiff'] as const) {
      const back = await readPicture(await encodeScan(flat.picture, format, { bilevel: true }), `scan.${format}`);
      expect(Buffer.compare(Buffer.from(back.picture.grey), flat.picture.grey)).toBe(0);
    }
  });

  it('shows the same paper in two strips', async () => {
    const { sheet } = smallSheet();
    const spec = { kind: 'line' as const, dpi: 150, ...smallSheet(), worn: { pencil: 3, creases: 1 }, seed: 3 };
    const strips = await makeStrips(spec, [
      { window: { x: 0, y: 0, width: sheet.width, height: 65 } },
      { window: { x: 0, y: 45, width: sheet.width, height: 65 }, noise: 0 },
    ]);
    const [upper, lower] = [strips[0]!, strips[1]!];
    // 45 mm are not a whole number of pixels at 150 dpi, but the maps know: the same place has nearly the same light.
    let worst = 0;
    for (let x = 5; x < 75; x += 1) {
      for (let y = 47; y < 63; y += 1) {
        const [a, b] = [upper, lower].map(({ picture, truth }) => {
          const p = transformPoint({ x, y }, truth.toPicture);
          return smooth(picture, p.x, p.y);
        });
        worst = Math.max(worst, Math.abs(a! - b!));
      }
    }
    expect(worst).toBeLessThan(0.12);
  });
});

/** The mean light of the pixels round a place, weighted by nearness. */
const smooth = ({ width, grey }: Picture, x: number, y: number): number => {
  let [sum, weights] = [0, 0];
  for (let j = Math.floor(y) - 8; j <= y + 8; j += 1) {
    for (let i = Math.floor(x) - 8; i <= x + 8; i += 1) {
      const weight = Math.exp(-((i + 0.5 - x) ** 2 + (j + 0.5 - y) ** 2) / 8);
      sum += weight * LIGHT[grey[j * width + i]!]!;
      weights += weight;
    }
  }
  return sum / weights;
};

describe('the panels of the made-up scans', () => {
  it.each(ALL_PANELS.map((p) => [p.name, p] as const))(
    '%s is closed, clockwise, simple, and knows its corners',
    (_, p) => {
      const { segments } = p.outline;
      expect(isClosed(p.outline)).toBe(true);
      expect(signedArea(p.outline)).toBeGreaterThan(0);
      expect(selfCrossings(p.outline)).toEqual([]);
      const turns = segments.map((s, i) => Math.abs(turn(tangentOn(segments.at(i - 1)!, 1), tangentOn(s, 0))));
      const sharp = segments.filter((__, i) => turns[i]! > 0.05).map((s) => s.start);
      expect(p.corners).toEqual(sharp);
      for (const t of turns) expect(t < 0.01 || t > 0.35).toBe(true);
      for (const l of p.across)
        for (const end of [l.start, l.end]) expect(nearestPoint(p.outline, end).distance).toBeLessThan(1e-9);
    },
  );

  it('have an acute corner near 45 degrees and an obtuse one near 155', () => {
    const angles = ALL_PANELS.flatMap(({ outline: { segments } }) =>
      segments.map(
        (s, i) => 180 - (Math.abs(turn(tangentOn(segments.at(i - 1)!, 1), tangentOn(s, 0))) * 180) / Math.PI,
      ),
    );
    expect(angles.some((a) => a > 42 && a < 48)).toBe(true);
    expect(angles.some((a) => a > 150 && a < 160)).toBe(true);
  });

  it('lie wholly in the pictures of all cases', () => {
    for (const { spec } of [1, 2, 3, 4, 5].flatMap((seed) => [...scanCases(seed), ...oddCases(seed)])) {
      const truth = truthOf(spec);
      let least = Infinity;
      for (const p of [...truth.panels.flatMap(({ outline }) => flattenPath(outline, 0.3)), ...truth.square!.corners]) {
        const at = transformPoint(p, truth.toPicture);
        const inside = Math.min(at.x, at.y, truth.width - at.x, truth.height - at.y) / truth.pxPerMm;
        least = Math.min(least, inside);
      }
      expect(least).toBeGreaterThan(2.5);
    }
  });

  it('lie clear of each other on every sheet', () => {
    for (const sheet of [
      smallSheet(),
      closeSheet(),
      fullSheet(),
      fullSheet(50.8),
      wideSheet(),
      ...oddCases().map(({ spec }) => spec),
    ]) {
      const truth = truthOf({ kind: 'line', dpi: 10, sheet: sheet.sheet, panels: sheet.panels, square: sheet.square! });
      const card = truth.square!.corners;
      const outlines = [...truth.panels.map(({ outline }) => outline), polygonPanel(card).outline];
      for (const [i, a] of outlines.entries()) {
        for (const b of outlines.slice(i + 1)) {
          const points = samplesOf(a, 2);
          expect(isInside(b, points[0]!) || isInside(a, b.segments[0]!.start)).toBe(false);
          expect(Math.min(...points.map((p) => nearestPoint(b, p).distance))).toBeGreaterThan(4.5);
        }
      }
    }
  });
});
