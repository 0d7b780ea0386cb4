import { describe, expect, it } from 'vitest';
import { flattenPath } from '../../../src/geometry/flatten.ts';
import { nearestPoint } from '../../../src/geometry/nearest-point.ts';
import { distance, type Point } from '../../../src/geometry/point.ts';
import { transformPath, transformPoint } from '../../../src/geometry/transform-path.ts';
import { traceOutline, type TracedOutline } from '../../../src/scan/outline/trace-outline.ts';
import { closeSheet } from '../../support/scans/cases.ts';
import type { Truth } from '../../support/scans/lay-out.ts';
import { makeScan } from '../../support/scans/make-scan.ts';
import { randomFrom } from '../../support/scans/random.ts';
import { GUSSET, SIDE } from '../../support/scans/scan-panels.ts';
import type { ScanSpec } from '../../support/scans/scan-spec.ts';
import { pictureOf } from './analytic-picture.ts';

/** What topology would find: the true outline with its corners rounded and moved to and fro by up to 0.2 mm; cuts run straight over. */
const roughly = (truth: Truth, panel: number, seed: number): Point[] => {
  const path = transformPath(truth.panels[panel]!.outline, truth.toPicture);
  const random = randomFrom(seed);
  const points = flattenPath(path, 0.02 * truth.pxPerMm).slice(1);
  const even: Point[] = [];
  for (const [k, b] of points.entries()) {
    const a = points.at(k - 1)!;
    const steps = Math.max(1, Math.round(distance(a, b) / (0.2 * truth.pxPerMm)));
    for (let i = 0; i < steps; i++)
      even.push({ x: a.x + ((b.x - a.x) * i) / steps, y: a.y + ((b.y - a.y) * i) / steps });
  }
  const near = (k: number): Point => even[(k + even.length) % even.length]!;
  const phases = [random.between(0, 6), random.between(0, 6)];
  return even.map((_, k) => {
    const wave = 0.1 * truth.pxPerMm * (Math.sin(k / 9 + phases[0]!) + Math.sin(k / 21 + phases[1]!));
    const [x, y] = [near(k - 2).x + near(k).x + near(k + 2).x, near(k - 2).y + near(k).y + near(k + 2).y];
    const length = distance(near(k - 2), near(k + 2));
    return {
      x: x / 3 + (wave * (near(k + 2).y - near(k - 2).y)) / length,
      y: y / 3 - (wave * (near(k + 2).x - near(k - 2).x)) / length,
    };
  });
};

const SCANNER = { turn: 1.3, shear: 0.002, scaleX: 1.015, scaleY: 0.99, noise: 3, jpeg: 75, seed: 11 } as const;

const traced = async (spec: ScanSpec): Promise<{ truth: Truth; outlines: TracedOutline[] }> => {
  const { picture, truth } = await makeScan(spec);
  const edge = spec.kind === 'line' ? 'ink' : 'lighter';
  const outlines = truth.panels.map((_, k) =>
    traceOutline(picture, { edge, points: roughly(truth, k, 5 + k) }, truth.pxPerMm)!,
  );
  return { truth, outlines };
};

/** The worst of all panels in millimetres, from the trace to the truth, and from each true corner to the nearest found. */
const missesOf = ({ truth, outlines }: { truth: Truth; outlines: TracedOutline[] }) => {
  const off: number[] = [];
  const corners: number[] = [];
  for (const [k, { outline, corners: trueCorners }] of truth.panels.entries()) {
    const found = outlines[k]!;
    const path = transformPath(found.path, truth.toMm);
    for (const p of flattenPath(path, 0.005)) off.push(nearestPoint(outline, p).distance);
    const places = found.corners.map((p) => transformPoint(p, truth.toMm));
    expect(places).toHaveLength(trueCorners.length);
    for (const p of trueCorners) corners.push(Math.min(...places.map((q) => distance(p, q))));
  }
  return { max: Math.max(...off), corner: Math.max(...corners) };
};

const GUSSET_ALONE = { sheet: { width: 40, height: 76 }, panels: [{ panel: GUSSET, at: { x: 8, y: 8 } }] };

describe('a traced outline', () => {
  it('is the middle of the printed line, with its corners, at 300 dpi', async () => {
    const found = await traced({ kind: 'line', dpi: 300, ...closeSheet(), ...SCANNER });
    const { max, corner } = missesOf(found);
    expect(max).toBeLessThan(0.015);
    expect(corner).toBeLessThan(0.015);
    for (const outline of found.outlines) {
      expect(outline.lineWidth! / found.truth.pxPerMm).toBeCloseTo(0.5, 1);
      expect(outline.spread / found.truth.pxPerMm).toBeLessThan(0.004);
      expect(outline.path.segments.length).toBeLessThanOrEqual(24);
    }
  });

  it('is not bent by gaps, faded stretches, creases and pencil', async () => {
    const worn = { gaps: 4, widest: 0.6, faded: 2, creases: 2, pencil: 3 };
    const found = await traced({ kind: 'line', dpi: 300, ...GUSSET_ALONE, ...SCANNER, worn });
    const { max, corner } = missesOf(found);
    expect(max).toBeLessThan(0.025);
    expect(corner).toBeLessThan(0.025);
    // Each gap and each stroke takes a millimetre or two of readings away, and is told of.
    for (const { bridged } of found.outlines) expect(bridged / found.truth.pxPerMm).toBeGreaterThan(3);
  });

  it("is the paper's edge of a cut-out piece, straight over its cuts and past the ink that reaches it", async () => {
    const panels = [{ panel: SIDE, at: { x: 14, y: 46 } }];
    const found = await traced({ kind: 'cutout', dpi: 150, sheet: { width: 62, height: 98 }, panels, ...SCANNER });
    const { max, corner } = missesOf(found);
    expect(max).toBeLessThan(0.05);
    expect(corner).toBeLessThan(0.05);
    expect(found.outlines[0]!.lineWidth).toBeUndefined();
  });

  it('is found between the whole pixels of a 1-bit scan', async () => {
    const { jpeg: _, ...scanner } = SCANNER;
    const found = await traced({ kind: 'line', dpi: 300, ...GUSSET_ALONE, ...scanner, threshold: 140 });
    const { max, corner } = missesOf(found);
    expect(max).toBeLessThan(0.03);
    expect(corner).toBeLessThan(0.04);
  });

  it('is none where nothing can be read', () => {
    const blank = pictureOf(200, 200, () => 0.8);
    const points = [
      { x: 50, y: 50 },
      { x: 150, y: 50 },
      { x: 150, y: 150 },
      { x: 50, y: 150 },
    ];
    expect(traceOutline(blank, { edge: 'ink', points }, 6)).toBeUndefined();
    expect(traceOutline(blank, { edge: 'lighter', points }, 6)).toBeUndefined();
  });
});
