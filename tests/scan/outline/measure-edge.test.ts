import { describe, expect, it } from 'vitest';
import { measureEdge } from '../../../src/scan/outline/measure-edge.ts';
import type { OutlineEdge } from '../../../src/scan/rough-outline.ts';
import { normalShare, pictureOf } from './analytic-picture.ts';

const SIZE = 48;
const PX_PER_MM = 11.8;

interface Scene {
  readonly edge: OutlineEdge;
  /** Pixels. */
  readonly width?: number;
  readonly sigma: number;
  readonly degrees: number;
  readonly phase: number;
  /** Of the light, a pixel to the right. */
  readonly drift?: number;
}

/** How far the reading is from the truth, in pixels; the line or edge is exact but for the blur, which keeps its middle. */
const errorOf = ({ edge, width = 0, sigma, degrees, phase, drift = 0 }: Scene): number => {
  const angle = (degrees * Math.PI) / 180;
  const normal = { dx: Math.cos(angle), dy: Math.sin(angle) };
  const on = { x: SIZE / 2 + phase * normal.dx, y: SIZE / 2 + phase * normal.dy };
  const picture = pictureOf(SIZE, SIZE, (x, y) => {
    const d = (x - on.x) * normal.dx + (y - on.y) * normal.dy;
    const beyond = normalShare(d / sigma);
    const line = normalShare((d + width / 2) / sigma) - normalShare((d - width / 2) / sigma);
    const shade = edge === 'ink' ? 0.8 - 0.74 * line : edge === 'lighter' ? 0.8 - 0.7 * beyond : 0.1 + 0.7 * beyond;
    return shade * (1 + drift * (x - SIZE / 2));
  });
  const at = { x: SIZE / 2 + 0.4, y: SIZE / 2 - 0.3 };
  const reading = measureEdge(picture, at, normal, edge, PX_PER_MM)!;
  return reading.offset - ((on.x - at.x) * normal.dx + (on.y - at.y) * normal.dy);
};

const everywhere = (scene: Omit<Scene, 'degrees' | 'phase'>): number => {
  let worst = 0;
  for (const degrees of [0, 17, 45, 90, 250]) {
    for (const phase of [0, 0.25, 0.5, 0.75]) worst = Math.max(worst, Math.abs(errorOf({ ...scene, degrees, phase })));
  }
  return worst;
};

/** Paper with upright lines four pixels broad, each as light as said. */
const stripes = (...lines: [at: number, light: number][]) =>
  pictureOf(60, 60, (x) => lines.find(([at]) => Math.abs(x - at) < 2)?.[1] ?? 0.8);

describe('an edge is read', () => {
  it('to 0.02 pixels at any angle and anywhere in a pixel, as light mixes', () => {
    for (const edge of ['lighter', 'darker'] as const) expect(everywhere({ edge, sigma: 0.7 })).toBeLessThan(0.02);
    expect(everywhere({ edge: 'lighter', sigma: 1.2 })).toBeLessThan(0.02);
  });

  it('in the middle of an ink line, thin or broad', () => {
    for (const width of [2, 5]) expect(everywhere({ edge: 'ink', width, sigma: 0.7 })).toBeLessThan(0.015);
  });

  it('under uneven light', () => {
    // A tenth of the light over 30 mm.
    const drift = 0.1 / (30 * PX_PER_MM);
    expect(everywhere({ edge: 'ink', width: 5, sigma: 0.8, drift })).toBeLessThan(0.012);
    expect(everywhere({ edge: 'lighter', sigma: 0.8, drift })).toBeLessThan(0.025);
  });
});

describe('an edge is not read', () => {
  const right = { dx: 1, dy: 0 };
  const middle = { x: 30, y: 30 };
  it('on bare paper, in the faintest pencil, or out of reach', () => {
    expect(measureEdge(stripes(), middle, right, 'ink', PX_PER_MM)).toBeUndefined();
    expect(measureEdge(stripes(), middle, right, 'lighter', PX_PER_MM)).toBeUndefined();
    expect(measureEdge(stripes([30, 0.76]), middle, right, 'ink', PX_PER_MM)).toBeUndefined();
    expect(measureEdge(stripes([44, 0.1]), middle, right, 'ink', PX_PER_MM)).toBeUndefined();
    expect(measureEdge(stripes([34, 0.1]), middle, right, 'ink', PX_PER_MM)).toBeDefined();
    expect(measureEdge(stripes([34, 0.1]), middle, right, 'ink', PX_PER_MM, 2)).toBeUndefined();
  });

  it('where two lines or two edges lie in reach', () => {
    expect(measureEdge(stripes([26, 0.1], [34, 0.1]), middle, right, 'ink', PX_PER_MM)).toBeUndefined();
    const steps = pictureOf(60, 60, (x) => (x < 26 ? 0.9 : x < 34 ? 0.5 : 0.1));
    expect(measureEdge(steps, middle, right, 'lighter', PX_PER_MM)).toBeUndefined();
    expect(measureEdge(steps, { x: 27, y: 30 }, right, 'lighter', PX_PER_MM, 3)).toBeDefined();
  });

  it('where the piece would lie outside', () => {
    const edge = pictureOf(60, 60, (x) => (x < 30 ? 0.9 : 0.1));
    expect(measureEdge(edge, middle, right, 'lighter', PX_PER_MM)).toBeDefined();
    expect(measureEdge(edge, middle, right, 'darker', PX_PER_MM)).toBeUndefined();
  });

  it('outside the picture', () => {
    expect(measureEdge(stripes(), { x: -1, y: 30 }, right, 'ink', PX_PER_MM)).toBeUndefined();
    expect(
      measureEdge(
        pictureOf(1, 1, () => 0.5),
        { x: 0.5, y: 0.5 },
        right,
        'ink',
        PX_PER_MM,
      ),
    ).toBeUndefined();
  });
});
