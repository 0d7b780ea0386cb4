import { flattenPath } from '../../geometry/flatten.ts';
import type { Path } from '../../geometry/path.ts';
import type { Point } from '../../geometry/point.ts';
import type { PictureKind } from '../rough-outline.ts';
import type { WorkingPicture } from '../working-picture.ts';

/** Bits of a field's zones: within the outline; the line itself with a margin; the surroundings of that band. */
export const INSIDE = 1;
export const BAND = 2;
export const NEAR = 4;

/** What is taken away with the outline's own ink, beyond half the line, and how far from that a stroke still counts as touching; mm. */
const MARGIN = 0.25;
const TOUCH = 0.7;
/** How far ink that touches the outline is followed outwards: a little more than a notch can be long; mm. */
const OUTWARDS = 13;

/** The ink on and round one panel without that of its outline: a window of the working picture. */
export interface MarkField {
  /** Picture pixels to one of the window, and the window's first working pixel. */
  readonly step: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly zone: Uint8Array;
  readonly ink: Uint8Array;
}

/** The window's pixel that holds a place, or -1 outside of it. */
export const pixelAt = (field: MarkField, x: number, y: number): number => {
  const i = Math.floor(x / field.step) - field.left;
  const j = Math.floor(y / field.step) - field.top;
  return i < 0 || j < 0 || i >= field.width || j >= field.height ? -1 : j * field.width + i;
};

/** The middle of a pixel of the window, in the picture. */
export const placeOf = (field: MarkField, pixel: number): Point => ({
  x: ((pixel % field.width) + field.left + 0.5) * field.step,
  y: (Math.floor(pixel / field.width) + field.top + 0.5) * field.step,
});

/** Whether a place is so near to the outline's own ink that a stroke there touches it. */
export const touchesOutline = (field: MarkField, { x, y }: Point): boolean => {
  const pixel = pixelAt(field, x, y);
  return pixel >= 0 && (field.zone[pixel]! & (NEAR | BAND)) === NEAR;
};

type Window = Pick<MarkField, 'step' | 'left' | 'top' | 'width' | 'height'>;

const windowRound = (points: readonly Point[], working: WorkingPicture, margin: number): Window => {
  const { step } = working;
  const xs = points.map((p) => p.x);
  const ys = points.map((p) => p.y);
  const left = Math.max(0, Math.floor((Math.min(...xs) - margin) / step));
  const top = Math.max(0, Math.floor((Math.min(...ys) - margin) / step));
  const right = Math.min(working.width, Math.ceil((Math.max(...xs) + margin) / step));
  const bottom = Math.min(working.height, Math.ceil((Math.max(...ys) + margin) / step));
  return { step, left, top, width: Math.max(0, right - left), height: Math.max(0, bottom - top) };
};

/** Marks the inside by crossings of each row's middle (even-odd). */
const fillInside = (zone: Uint8Array, w: Window, points: readonly Point[]): void => {
  const crossings: number[][] = Array.from({ length: w.height }, () => []);
  for (let i = 0; i + 1 < points.length; i += 1) {
    const a = points[i]!;
    const b = points[i + 1]!;
    const [from, to] = a.y < b.y ? [a, b] : [b, a];
    const first = Math.max(0, Math.ceil(from.y / w.step - 0.5) - w.top);
    const last = Math.min(w.height, Math.ceil(to.y / w.step - 0.5) - w.top);
    for (let row = first; row < last; row += 1) {
      const y = (row + w.top + 0.5) * w.step;
      const x = from.x + ((to.x - from.x) * (y - from.y)) / (to.y - from.y);
      crossings[row]!.push(x / w.step - w.left);
    }
  }
  for (const [row, xs] of crossings.entries()) {
    xs.sort((p, q) => p - q);
    for (let k = 0; k + 1 < xs.length; k += 2) {
      const from = Math.max(0, Math.ceil(xs[k]! - 0.5));
      const to = Math.min(w.width, Math.ceil(xs[k + 1]! - 0.5));
      if (to > from) zone.fill(INSIDE, row * w.width + from, row * w.width + to);
    }
  }
};

/** Sets `bits` in all pixels whose middles lie within `radius` picture pixels of a chain of points. */
const stampAlong = (zone: Uint8Array, w: Window, points: readonly Point[], radius: number, bits: number): void => {
  const r = radius / w.step;
  const reach = Math.ceil(r);
  const stamp = (x: number, y: number): void => {
    const cj = Math.floor(y);
    for (let j = Math.max(0, cj - reach); j <= Math.min(w.height - 1, cj + reach); j += 1) {
      const square = r * r - (j + 0.5 - y) ** 2;
      if (square < 0) continue;
      const half = Math.sqrt(square);
      const from = Math.max(0, Math.ceil(x - half - 0.5));
      const to = Math.min(w.width - 1, Math.floor(x + half - 0.5));
      for (let i = from; i <= to; i += 1) zone[j * w.width + i]! |= bits;
    }
  };
  for (let k = 0; k + 1 < points.length; k += 1) {
    const a = points[k]!;
    const b = points[k + 1]!;
    const count = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / (2 * w.step)));
    for (let n = 0; n < count; n += 1) {
      const t = n / count;
      stamp((a.x + (b.x - a.x) * t) / w.step - w.left, (a.y + (b.y - a.y) * t) / w.step - w.top);
    }
  }
};

/** Ink beyond the outline counts where it hangs together with ink that touches the outline from outside. */
const keepInkOutside = (
  ink: Uint8Array,
  all: Uint8Array,
  zone: Uint8Array,
  width: number,
  touching: number[],
  depth: number,
): void => {
  let front = touching;
  for (const p of front) ink[p] = 1;
  const around = [-width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1];
  for (let round = 0; round < depth && front.length > 0; round += 1) {
    const next: number[] = [];
    for (const p of front) {
      for (const by of around) {
        const q = p + by;
        if (q < 0 || q >= zone.length || ink[q] === 1 || all[q] !== 1 || (zone[q]! & (INSIDE | BAND)) !== 0) continue;
        ink[q] = 1;
        next.push(q);
      }
    }
    front = next;
  }
};

/** The field of a panel whose closed outline is known; `leaveOut` are other outlines whose ink is known to be no mark. */
export const markField = (
  working: WorkingPicture,
  outline: Path,
  kind: PictureKind,
  pxPerMm: number,
  lineWidth: number,
  leaveOut: readonly Path[] = [],
): MarkField => {
  const points = flattenPath(outline, working.step / 4);
  const w = windowRound(points, working, OUTWARDS * pxPerMm);
  const zone = new Uint8Array(w.width * w.height);
  const ink = new Uint8Array(w.width * w.height);
  if (ink.length === 0) return { ...w, zone, ink };
  fillInside(zone, w, points);
  const band = lineWidth / 2 + MARGIN * pxPerMm;
  stampAlong(zone, w, points, band + TOUCH * pxPerMm, NEAR);
  stampAlong(zone, w, points, band, BAND);
  for (const other of leaveOut) stampAlong(zone, w, flattenPath(other, working.step / 4), band, BAND);
  const all = new Uint8Array(w.width * w.height);
  for (let j = 1; j + 1 < w.height; j += 1) {
    const from = (j + w.top) * working.width + w.left;
    all.set(working.ink.subarray(from + 1, from + w.width - 1), j * w.width + 1);
  }
  const touching: number[] = [];
  for (let p = 0; p < all.length; p += 1) {
    if (all[p] === 0) continue;
    const bits = zone[p]!;
    if ((bits & (INSIDE | BAND)) === INSIDE) ink[p] = 1;
    else if (bits === NEAR) touching.push(p);
  }
  if (kind === 'line')
    keepInkOutside(ink, all, zone, w.width, touching, Math.round((OUTWARDS * pxPerMm) / working.step));
  return { ...w, zone, ink };
};
