/**
 * What is traced, against things that were made elsewhere: the colour curve of a standard, and pictures drawn by other programs.
 *
 * - IEC 61966-2-1 (sRGB): the curve's two pieces meet at 0.04045; grey 188 is half of the light (computed here from the standard's formula,
 *   which is given from memory), and a grey of half the value, 128, is 21.6 % of it.
 * - A circle and a rectangle drawn by librsvg, as a general-purpose library that mixes grey values: the middle of a line is not moved by that.
 */
import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { flattenPath } from '../../src/geometry/flatten.ts';
import { distance, point } from '../../src/geometry/point.ts';
import { LIGHT } from '../../src/scan/picture.ts';
import { readPicture } from '../../src/scan/read-picture.ts';
import { scaleScan, tracePanels } from '../../src/scan/trace-picture.ts';
import type { Traced } from '../../src/scan/traced.ts';

describe('the light of grey values', () => {
  it('follows the sRGB curve', () => {
    expect(LIGHT[0]).toBe(0);
    expect(LIGHT[255]).toBe(1);
    expect(LIGHT[10]).toBeCloseTo(10 / 255 / 12.92, 12);
    expect(LIGHT[128]).toBeCloseTo(0.21586, 5);
    expect(LIGHT[188]).toBeCloseTo(0.5029, 4);
  });
});

describe('shapes drawn by another program', () => {
  const perMm = 300 / 25.4;
  const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="${130 * perMm}" height="${90 * perMm}" viewBox="0 0 130 90">
    <rect width="130" height="90" fill="#fff"/>
    <g fill="none" stroke="#222" stroke-width="0.5">
      <rect x="8" y="8" width="20" height="20"/>
      <circle cx="75" cy="45" r="31.5"/>
      <path d="M 12 40 L 33 37 L 37 79 L 9 82 Z"/>
    </g></svg>`;
  let traced: Traced;
  beforeAll(async () => {
    const png = await sharp(Buffer.from(drawing), { density: 72 }).png().toBuffer();
    const scan = await readPicture(png, 'drawn.png');
    traced = tracePanels(scan, scaleScan(scan, { testSquare: 20, dpi: 300 }), () => {});
  });

  it('measures the square at the resolution it was drawn with', () => {
    expect(traced.scale.dpi.x / 25.4).toBeCloseTo(perMm, 2);
    expect(traced.scale.dpi.y / 25.4).toBeCloseTo(perMm, 2);
    expect(traced.panels).toHaveLength(2);
  });

  // It flattens curves to a tenth of a pixel, 0.0085 mm.
  it('finds a circle round, without a corner, of its radius', () => {
    const circle = traced.panels[1]!;
    expect(circle.corners).toHaveLength(0);
    for (const at of flattenPath(circle.outline, 0.002)) {
      expect(Math.abs(distance(at, point(75, 45)) - 31.5)).toBeLessThan(0.02);
    }
  });

  it('finds the corners of a leaning four-sided panel', () => {
    const { corners } = traced.panels[0]!;
    expect(corners).toHaveLength(4);
    for (const truth of [point(12, 40), point(33, 37), point(37, 79), point(9, 82)]) {
      expect(Math.min(...corners.map((corner) => distance(corner, truth)))).toBeLessThan(0.015);
    }
  });
});
