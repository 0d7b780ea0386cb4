import { inverse, type Matrix } from '../../geometry/matrix.ts';
import { transformPoint } from '../../geometry/transform-path.ts';
import type { DetailMap } from './detail-map.ts';
import { cornersOfPart, type Part } from './scan-to-join.ts';

/** Detail laid on a square grid in millimetres: `known` is 1 where a scan shows the sheet, else 0 and the value 0. */
export interface LaidMap {
  readonly perMm: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly values: Float32Array;
  readonly known: Float32Array;
}

/** One scan's detail with where it lies. */
export interface ScanDetail {
  readonly map: DetailMap;
  readonly toMm: Matrix;
  readonly part: Part;
}

/** Lays the detail of scans side by side, the mean where they overlap. */
export const layMap = (details: readonly ScanDetail[], perMm: number): LaidMap => {
  const corners = details.flatMap(({ part, toMm }) => cornersOfPart(part).map((p) => transformPoint(p, toMm)));
  const left = Math.min(...corners.map(({ x }) => x));
  const top = Math.min(...corners.map(({ y }) => y));
  const width = Math.ceil((Math.max(...corners.map(({ x }) => x)) - left) * perMm);
  const height = Math.ceil((Math.max(...corners.map(({ y }) => y)) - top) * perMm);
  const values = new Float32Array(width * height);
  const known = new Float32Array(width * height);
  for (const { map, toMm, part } of details) {
    const back = inverse(toMm);
    for (let j = 0; j < height; j++) {
      for (let i = 0; i < width; i++) {
        const mmX = left + (i + 0.5) / perMm;
        const mmY = top + (j + 0.5) / perMm;
        const x = back.a * mmX + back.c * mmY + back.e;
        const y = back.b * mmX + back.d * mmY + back.f;
        if (x < part.left || x > part.right || y < part.top || y > part.bottom) continue;
        values[j * width + i]! += detailAt(map, x, y);
        known[j * width + i]!++;
      }
    }
  }
  for (let i = 0; i < values.length; i++) {
    if (known[i]! > 1) values[i]! /= known[i]!;
    if (known[i]! > 0) known[i] = 1;
  }
  return { perMm, left, top, width, height, values, known };
};

/** Detail at a place in the picture, between pixels in proportion; at the border that of the border. */
export const detailAt = ({ step, width, height, values }: DetailMap, x: number, y: number): number => {
  const u = Math.max(0, Math.min(width - 1.001, x / step - 0.5));
  const v = Math.max(0, Math.min(height - 1.001, y / step - 0.5));
  const i = Math.floor(u);
  const j = Math.floor(v);
  const s = u - i;
  const t = v - j;
  const at = j * width + i;
  const over = (values[at] ?? 0) * (1 - s) + (values[at + 1] ?? 0) * s;
  const under = (values[at + width] ?? 0) * (1 - s) + (values[at + width + 1] ?? 0) * s;
  return over * (1 - t) + under * t;
};
