import type { Path } from '../../src/geometry/path.ts';
import { point, type Point } from '../../src/geometry/point.ts';
import { line } from '../../src/geometry/segment.ts';
import type { Picture } from '../../src/scan/picture.ts';
import type { Peer } from './peer.ts';

/** How far the polygon may be from the contour, in pixels, and how many of its places a contour has at least. */
const POLYGON = 0.5;
const SPECK = 20;

/**
 * What libraries of picture analysis offer, done plainly: the contour at one grey level by marching squares, its places found by straight
 * interpolation between the middles of pixels, then thinned to a polygon (Douglas and Peucker).
 */
export const plainContour: Peer = {
  name: 'plain contour',
  trace: (picture, level) =>
    contours(picture, level - 0.5)
      .filter((ring) => ring.length >= SPECK)
      .map((ring) => closedPolygon(thinnedRing(ring))),
};

const closedPolygon = (ring: readonly Point[]): Path => ({
  segments: ring.map((p, i) => line(p, ring[(i + 1) % ring.length]!)),
});

/** Closed contours, the dark on their right; what runs out of the picture is left out. */
const contours = ({ width, height, grey }: Picture, level: number): Point[][] => {
  const next = new Map<number, number>();
  for (let y = 0; y + 1 < height; y += 1) {
    for (let x = 0; x + 1 < width; x += 1) {
      const at = y * width + x;
      const dark = [
        grey[at]! < level,
        grey[at + 1]! < level,
        grey[at + width + 1]! < level,
        grey[at + width]! < level,
      ] as const;
      if (dark[0] === dark[1] && dark[0] === dark[2] && dark[0] === dark[3]) continue;
      // An edge has twice the number of its first pixel, one more if it runs down; round the cell: top, right, bottom, left.
      const edges = [2 * at, 2 * at + 3, 2 * (at + width), 2 * at + 1];
      for (let side = 0; side < 4; side += 1) {
        if (!dark[side] || dark[(side + 1) % 4]) continue;
        let back = (side + 3) % 4;
        while (dark[back] || !dark[(back + 1) % 4]) back = (back + 3) % 4;
        next.set(edges[side]!, edges[back]!);
      }
    }
  }
  const placeOn = (edge: number): Point => {
    const [at, isDown] = [edge >> 1, (edge & 1) === 1];
    const [from, to] = [grey[at]!, grey[at + (isDown ? width : 1)]!];
    const t = (level - from) / (to - from);
    const [x, y] = [(at % width) + 0.5, Math.floor(at / width) + 0.5];
    return isDown ? point(x, y + t) : point(x + t, y);
  };
  const rings: Point[][] = [];
  for (const start of next.keys()) {
    const ring: Point[] = [];
    let edge: number | undefined = start;
    while (edge !== undefined && next.has(edge)) {
      ring.push(placeOn(edge));
      const following: number = next.get(edge)!;
      next.delete(edge);
      edge = following;
    }
    if (edge === start) rings.push(ring);
  }
  return rings;
};

/** Cut at its first place and at the one farthest from that. */
const thinnedRing = (ring: readonly Point[]): Point[] => {
  const first = ring[0]!;
  let far = 0;
  let most = 0;
  for (const [i, p] of ring.entries()) {
    const off = Math.hypot(p.x - first.x, p.y - first.y);
    if (off > most) [far, most] = [i, off];
  }
  const [there, back] = [ring.slice(0, far + 1), [...ring.slice(far), first]];
  return [...thinned(there).slice(0, -1), ...thinned(back).slice(0, -1)];
};

const thinned = (points: readonly Point[]): Point[] => {
  const kept = new Uint8Array(points.length);
  kept[0] = 1;
  kept[points.length - 1] = 1;
  const open: [number, number][] = [[0, points.length - 1]];
  for (let part = open.pop(); part !== undefined; part = open.pop()) {
    const [from, to] = part;
    const [a, b] = [points[from]!, points[to]!];
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    let worst = POLYGON;
    let at = -1;
    for (let i = from + 1; i < to; i += 1) {
      const p = points[i]!;
      const off = Math.abs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / length;
      if (off > worst) [worst, at] = [off, i];
    }
    if (at < 0) continue;
    kept[at] = 1;
    open.push([from, at], [at, to]);
  }
  return points.filter((_, i) => kept[i] === 1);
};
