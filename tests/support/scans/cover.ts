/**
 * How much of every pixel a polygon covers, exactly: the signed area to the right of each edge is summed into the pixels it passes, and
 * a running sum along the row then gives the share covered (the method of many font renderers).
 */

/** Rows `top` to `top + height` of a picture. */
export interface Band {
  readonly width: number;
  readonly top: number;
  readonly height: number;
}

/** Closed rings as x, y, x, y..., in picture places; where one ring runs against another round it, there is a hole. */
export interface Shape {
  readonly rings: readonly Float64Array[];
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
}

export const shapeOf = (rings: readonly Float64Array[]): Shape => {
  let [minX, maxX, minY, maxY] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      minX = Math.min(minX, ring[i]!);
      maxX = Math.max(maxX, ring[i]!);
      minY = Math.min(minY, ring[i + 1]!);
      maxY = Math.max(maxY, ring[i + 1]!);
    }
  }
  return { rings, minX, maxX, minY, maxY };
};

/** Room for the sums of one band; all zero between uses. */
export const coverRoom = (band: Band): Float32Array => new Float32Array((band.width + 3) * band.height);

/** Adds the part of an edge that runs within 0 <= x <= width; y is counted from the top of the band. */
const addInside = (sums: Float32Array, w: number, h: number, ax: number, ay: number, bx: number, by: number): void => {
  if (ay === by) return;
  const way = ay < by ? 1 : -1;
  const [x0, y0, x1, y1] = ay < by ? [ax, ay, bx, by] : [bx, by, ax, ay];
  if (y1 <= 0 || y0 >= h) return;
  const slope = (x1 - x0) / (y1 - y0);
  const last = Math.min(h, Math.ceil(y1));
  let x = y0 < 0 ? x0 - y0 * slope : x0;
  for (let row = Math.max(0, Math.floor(y0)); row < last; row += 1) {
    const dy = Math.min(row + 1, y1) - Math.max(row, y0);
    const next = Math.min(w - 3, Math.max(0, x + slope * dy));
    const d = dy * way;
    const left = Math.min(x, next);
    const right = Math.max(x, next);
    const first = Math.floor(left);
    const end = Math.ceil(right);
    const at = row * w + first;
    if (end <= first + 1) {
      const mean = (x + next) / 2 - first;
      sums[at]! += d * (1 - mean);
      sums[at + 1]! += d * mean;
    } else {
      // Over several pixels: the area to the right of the edge grows quadratically, then evenly, then quadratically.
      const s = 1 / (right - left);
      let before = 0;
      for (let i = first; i < end; i += 1) {
        const a = Math.max(left, i) - left;
        const b = Math.min(right, i + 1) - left;
        const inside = (b - a) * s;
        const covered = a * s + inside * (1 - ((a + b) / 2 + left - i)) - before;
        sums[row * w + i]! += d * covered;
        before += covered;
      }
      sums[row * w + end]! += d * (1 - before);
    }
    x = next;
  }
};

/** What is left of the picture counts as lying on its left side, and what is right of it has no effect. */
const addEdge = (sums: Float32Array, w: number, h: number, ax: number, ay: number, bx: number, by: number): void => {
  const width = w - 3;
  const cuts = [0, 1];
  for (const side of [0, width]) {
    const t = (side - ax) / (bx - ax);
    if (t > 0 && t < 1) cuts.push(t);
  }
  if (cuts.length === 2 && Math.min(ax, bx) >= 0 && Math.max(ax, bx) <= width) {
    addInside(sums, w, h, ax, ay, bx, by);
    return;
  }
  cuts.sort((a, b) => a - b);
  for (let i = 1; i < cuts.length; i += 1) {
    const [s, t] = [cuts[i - 1]!, cuts[i]!];
    const middle = ax + ((s + t) / 2) * (bx - ax);
    if (middle > width) continue;
    const clamp = (u: number): number => (middle < 0 ? 0 : Math.min(width, Math.max(0, ax + u * (bx - ax))));
    addInside(sums, w, h, clamp(s), ay + s * (by - ay), clamp(t), ay + t * (by - ay));
  }
};

/**
 * Moves every covered place of `target` towards `value`: all the way where the shape covers the whole pixel and `strength` is 1.
 * `target` holds the band's rows; `sums` comes from `coverRoom`.
 */
export const layShape = (
  target: Float32Array,
  band: Band,
  sums: Float32Array,
  shape: Shape,
  value: number,
  strength = 1,
): void => {
  const { width, top, height } = band;
  if (shape.maxY <= top || shape.minY >= top + height || shape.maxX <= 0 || shape.minX >= width) return;
  const w = width + 3;
  for (const ring of shape.rings) {
    let ax = ring[ring.length - 2]!;
    let ay = ring[ring.length - 1]! - top;
    for (let i = 0; i < ring.length; i += 2) {
      const bx = ring[i]!;
      const by = ring[i + 1]! - top;
      if (Math.max(ay, by) > 0 && Math.min(ay, by) < height) addEdge(sums, w, height, ax, ay, bx, by);
      ax = bx;
      ay = by;
    }
  }
  const fromRow = Math.max(0, Math.floor(shape.minY) - top);
  const toRow = Math.min(height, Math.ceil(shape.maxY) - top);
  const from = Math.max(0, Math.floor(shape.minX) - 1);
  const to = Math.min(width, Math.ceil(shape.maxX) + 1);
  for (let row = fromRow; row < toRow; row += 1) {
    let sum = 0;
    const base = row * w;
    const out = row * width;
    for (let x = from; x < to; x += 1) {
      sum += sums[base + x]!;
      const covered = sum < 0 ? -sum : sum;
      if (covered > 1e-5) target[out + x]! += (value - target[out + x]!) * (covered > 1 ? 1 : covered) * strength;
    }
    sums.fill(0, base + from, base + Math.min(w, to + 3));
  }
};
