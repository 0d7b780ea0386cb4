import { layShape, type Band } from './cover.ts';
import type { Drawing } from './lay-out.ts';
import { lightOf } from './light-of.ts';
import type { Crease, Fade } from './wear.ts';

/** A bell beyond this many spreads counts as nothing. */
const BELL_REACH = 4;

/** Takes part of the ink away round a place. */
const fade = (ink: Float32Array, { width, top, height }: Band, { at, spread, depth }: Fade): void => {
  const reach = BELL_REACH * spread;
  const [left, right] = [Math.max(0, Math.floor(at.x - reach)), Math.min(width, Math.ceil(at.x + reach))];
  const from = Math.max(0, Math.floor(at.y - reach) - top);
  const to = Math.min(height, Math.ceil(at.y + reach) - top);
  for (let row = from; row < to; row += 1) {
    const dy = row + top + 0.5 - at.y;
    for (let x = left; x < right; x += 1) {
      const i = row * width + x;
      if (ink[i] === 0) continue;
      const dx = x + 0.5 - at.x;
      ink[i]! *= 1 - depth * Math.exp(-(dx * dx + dy * dy) / (2 * spread * spread));
    }
  }
};

/** Makes the paper lighter or darker along a straight fold, a little differently on its two sides. */
const fold = (light: Float32Array, { width, top, height }: Band, crease: Crease): void => {
  const { at, way, spread, middle, sides } = crease;
  const reach = BELL_REACH * spread;
  for (let row = 0; row < height; row += 1) {
    const dy = row + top + 0.5 - at.y;
    // Signed distance: dx * way.dy - dy * way.dx
    const centre = at.x + (dy * way.dx) / way.dy;
    const half = reach / Math.abs(way.dy);
    const left = Math.max(0, Math.floor(centre - half));
    const right = Math.min(width, Math.ceil(centre + half));
    for (let x = left; x < right; x += 1) {
      const u = ((x + 0.5 - at.x) * way.dy - dy * way.dx) / spread;
      if (Math.abs(u) < BELL_REACH) light[row * width + x]! *= 1 + (middle + sides * u) * Math.exp((-u * u) / 2);
    }
  }
};

/** Fills `light` with what lies on the band's rows, before any blur; `ink` and `sums` are room to work in. */
export const drawBand = (
  drawing: Drawing,
  band: Band,
  light: Float32Array,
  ink: Float32Array,
  sums: Float32Array,
): void => {
  const count = band.width * band.height;
  light.fill(lightOf(drawing.paper), 0, count);
  ink.fill(0, 0, count);
  for (const shape of drawing.ink) layShape(ink, band, sums, shape, 1);
  for (const gap of drawing.gaps) layShape(ink, band, sums, gap, 0);
  for (const one of drawing.fades) fade(ink, band, one);
  const dark = lightOf(drawing.inkGrey);
  for (let i = 0; i < count; i += 1) if (ink[i]! > 0) light[i]! += (dark - light[i]!) * ink[i]!;
  for (const { shape, strength } of drawing.pencil) layShape(light, band, sums, shape, 0, strength);
  for (const crease of drawing.creases) fold(light, band, crease);
  if (drawing.sheets.length > 0) {
    ink.fill(0, 0, count);
    for (const shape of drawing.sheets) layShape(ink, band, sums, shape, 1);
    const base = lightOf(drawing.base);
    for (let i = 0; i < count; i += 1) light[i] = base + (light[i]! - base) * ink[i]!;
  }
  for (const { shape, grey, strength } of drawing.dust) layShape(light, band, sums, shape, lightOf(grey), strength);
};
