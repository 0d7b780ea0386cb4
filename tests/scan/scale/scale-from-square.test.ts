import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { compose, inverse, rotation, translation, type Matrix } from '../../../src/geometry/matrix.ts';
import { transformPoint } from '../../../src/geometry/transform-path.ts';
import type { Picture } from '../../../src/scan/picture.ts';
import type { OutlineEdge } from '../../../src/scan/rough-outline.ts';
import { scaleFromSquare } from '../../../src/scan/scale/scale-from-square.ts';
import type { Corners } from '../../../src/scan/scale/meet-sides.ts';
import type { ScanScale } from '../../../src/scan/traced.ts';
import { caught } from '../../support/caught.ts';
import { chance, drawPicture, squareLight, type Light } from './draw-square.ts';
import { stretchOf } from './stretch-of.ts';

interface Drawn {
  readonly picture: Picture;
  readonly fromMm: Matrix;
}

interface Drawing {
  readonly dpi: number;
  readonly seed: number;
  readonly side?: number;
  readonly upright?: boolean;
  readonly line?: number | undefined;
  readonly noise?: number;
  readonly bilevel?: number;
  readonly paper?: number;
  readonly ink?: number;
  /** What else is on the paper, by millimetres from the middle of the square. */
  readonly over?: (light: number, u: number, v: number) => number;
}

/** A square on paper under a lamp that is brighter to one side, scanned turned, sheared and off in scale by chance. */
const draw = ({
  dpi,
  seed,
  side = 20,
  upright = false,
  line = 0.5,
  noise = 3,
  bilevel,
  over,
  ...greys
}: Drawing): Drawn => {
  const random = chance(seed * 7919 + dpi);
  const size = Math.ceil(((side + 6) / 25.4) * dpi);
  const scale = (): number => (dpi / 25.4) * (1 + 0.04 * (random() - 0.5));
  const [x, y] = [scale(), scale()];
  const [turn, shear] = upright ? [0, 0] : [0.1 * (random() - 0.5), 0.03 * (random() - 0.5)];
  const seen = compose({ a: x, b: 0, c: shear * x, d: y, e: 0, f: 0 }, rotation(turn));
  const fromMm = compose(translation(size / 2 + random(), size / 2 + random()), seen);
  const plain = squareLight({ fromMm, side, ...(line > 0 ? { line } : {}), blur: 0.7 / (dpi / 25.4), ...greys });
  const back = inverse(fromMm);
  const light: Light = (px, py) => {
    const { x: u, y: v } = transformPoint({ x: px, y: py }, back);
    return (over?.(plain(px, py), u, v) ?? plain(px, py)) * (1 - (0.15 * px) / size - (0.05 * py) / size);
  };
  return {
    picture: drawPicture(size, size, light, { noise, seed, ...(bilevel === undefined ? {} : { bilevel }) }),
    fromMm,
  };
};

const measure = ({ picture, fromMm }: Drawn, side = 20, edge: OutlineEdge = 'ink', isBilevel = false): ScanScale => {
  const half = side / 2 - 0.2;
  const corners = [
    [-half, -half],
    [half + 0.3, -half],
    [half, half],
    [-half, half + 0.3],
  ].map(([x, y]) => transformPoint({ x: x!, y: y! }, fromMm)) as unknown as Corners;
  const about = Math.sqrt(Math.abs(fromMm.a * fromMm.d - fromMm.b * fromMm.c));
  return scaleFromSquare({ picture, name: 'scan.png', isBilevel }, { corners, edge }, side, about);
};

const errorOf = (scale: ScanScale, { fromMm }: Drawn): number => stretchOf(compose(scale.toMm, fromMm));

describe('the scale by a printed square', () => {
  it('is right to 1 part in 50,000 where nothing disturbs it', () => {
    for (const seed of [1, 2]) {
      const drawn = draw({ dpi: 200, seed, noise: 0 });
      expect(errorOf(measure(drawn), drawn)).toBeLessThan(2e-5);
    }
  });

  it('is right to 5 parts in 100,000 by 50 mm at 300 dpi, and for thin and thick lines alike', () => {
    for (const [seed, line] of [
      [4, 0.25],
      [5, 0.9],
    ] as const) {
      const drawn = draw({ dpi: 300, seed, side: 50, line });
      const scale = measure(drawn, 50);
      expect(errorOf(scale, drawn)).toBeLessThan(5e-5);
      expect(scale.doubt).toBeLessThan(0.005);
    }
  });

  it.each([
    ['noise', 0.5, 150, {}],
    ['an upright square', 0.5, 150, { upright: true }],
    ['black and white only', 0.5, 150, { bilevel: 0.4 }],
    ['an upright square in black and white', 0.5, 150, { bilevel: 0.4, upright: true }],
  ] as const)('lies within three times its doubt under %s', (_, line, dpi, how) => {
    const ratios = Array.from({ length: 6 }, (__, seed) => {
      const drawn = draw({ dpi, seed: seed + 1, line, ...how });
      const scale = measure(drawn, 20, 'ink', 'bilevel' in how);
      return (100 * errorOf(scale, drawn)) / scale.doubt!;
    });
    expect(Math.max(...ratios)).toBeLessThan(3);
    // A doubt that is always ten times too large would say nothing.
    expect(Math.max(...ratios)).toBeGreaterThan(0.3);
  });

  it('lies within three times its doubt after JPEG at quality 75', async () => {
    for (let seed = 1; seed <= 4; seed += 1) {
      const drawn = draw({ dpi: 150, seed });
      const { width, height, grey } = drawn.picture;
      const packed = await sharp(grey, { raw: { width, height, channels: 1 } })
        .jpeg({ quality: 75 })
        .toBuffer();
      const raw = await sharp(packed).toColourspace('b-w').raw().toBuffer();
      const scale = measure({ ...drawn, picture: { width, height, grey: new Uint8Array(raw) } });
      expect((100 * errorOf(scale, drawn)) / scale.doubt!).toBeLessThan(3);
    }
  });

  it('is not moved by pencil beside a third of a side, a crease, a gap, ticks and words within', () => {
    for (const seed of [1, 2]) {
      const drawn = draw({
        dpi: 200,
        seed,
        over: (light, u, v) => {
          if (u > -6 && u < 1 && Math.abs(v + 10.35) < 0.2) return light * 0.45;
          if (Math.abs(u - v - 5) < 0.25) return Math.min(0.8, light + 0.25);
          if (u > 8 && v > 2 && v < 3.5) return 0.8;
          if (Math.abs(v + 2) < 0.15 && u < -9 && u > -12) return 0.08;
          if (Math.abs(u) < 5 && Math.abs(v) < 2 && Math.sin(4 * u) > 0.3) return 0.08;
          return light;
        },
      });
      const scale = measure(drawn);
      expect(errorOf(scale, drawn)).toBeLessThan(2e-4);
      expect((100 * errorOf(scale, drawn)) / scale.doubt!).toBeLessThan(3);
    }
  });

  it('runs from edge to edge of a filled square, however it was told, and of one cut out of paper', () => {
    const filled = draw({ dpi: 200, seed: 6, line: 0 });
    expect(errorOf(measure(filled, 20, 'darker'), filled)).toBeLessThan(1e-4);
    expect(errorOf(measure(filled, 20, 'ink'), filled)).toBeLessThan(1e-4);
    const paper = draw({ dpi: 200, seed: 7, line: 0, paper: 0.1, ink: 0.8 });
    expect(errorOf(measure(paper, 20, 'lighter'), paper)).toBeLessThan(1e-4);
  });

  it('is refused where more than half of a side is covered, by the name of the side', () => {
    const drawn = draw({ dpi: 150, seed: 2, over: (light, u, v) => (u > 8 && Math.abs(v) < 6 ? 0.5 : light) });
    const { code, where, message, hint } = caught(() => measure(drawn));
    expect({ code, where }).toEqual({ code: 'input', where: 'scan.png' });
    expect(message).toMatch(/only \d+ % of the right side of the test square is clear/);
    expect(hint).toContain('--dpi');
  });
});
