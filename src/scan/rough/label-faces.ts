/** Every pixel's face: 1 is outside, where the picture's border can be reached without crossing ink. */
export interface Faces {
  readonly labels: Int32Array;
  /** How far ink lines reach to each side of their middle: half of their usual width, in pixels. */
  readonly halfWidth: number;
}

const find = (parents: number[], label: number): number => {
  let root = label;
  while (parents[root]! !== root) root = parents[root]!;
  for (let at = label; at !== root;) {
    const next = parents[at]!;
    parents[at] = root;
    at = next;
  }
  return root;
};

/** Numbers for the parts of the paper that hang together side by side: 1 for all that reaches the border, 2 and up inside, 0 on ink. */
const label = (ink: Uint8Array, width: number, height: number): { labels: Int32Array; areas: Float64Array } => {
  const labels = new Int32Array(ink.length);
  const parents = [0, 1];
  for (let y = 0, at = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1, at += 1) {
      if (ink[at] !== 0) continue;
      const left = x === 0 ? 1 : labels[at - 1]!;
      const above = y === 0 ? 1 : labels[at - width]!;
      if (left === above && left !== 0 && x < width - 1 && y < height - 1) {
        labels[at] = left;
        continue;
      }
      const known = left === 0 ? above : left;
      labels[at] = known === 0 ? parents.push(parents.length) - 1 : known;
      join(parents, left, above);
      if (x === width - 1 || y === height - 1) join(parents, labels[at]!, 1);
    }
  }
  const areas = new Float64Array(parents.length);
  const roots = Int32Array.from(parents, (_, k) => find(parents, k));
  for (let at = 0; at < labels.length; at += 1) {
    const root = roots[labels[at]!]!;
    labels[at] = root;
    areas[root]! += 1;
  }
  return { labels, areas };
};

const join = (parents: number[], a: number, b: number): void => {
  if (a === 0 || b === 0 || a === b) return;
  const [p, q] = [find(parents, a), find(parents, b)];
  if (p !== q) parents[Math.max(p, q)] = Math.min(p, q);
};

/** Steps of a walk over pixels, scaled by 5: 5 to a side, 7 to a corner. */
const STEP = [5, 7] as const;

/**
 * Grows the faces evenly into the ink until they meet, so that two of them meet in the middle of the line between them. Faces smaller
 * than `smallest` pixels (eyes of letters, crumbs between a line and a dash) count as ink.
 */
export const labelFaces = (ink: Uint8Array, width: number, height: number, smallest: number): Faces => {
  const { labels, areas } = label(ink, width, height);
  const far = new Uint16Array(ink.length);
  const rings: number[][] = [[]];
  const put = (ring: number, at: number): void => {
    (rings[ring] ??= []).push(at);
  };
  const small = Uint8Array.from(areas, (area, face) => (face !== 1 && area < smallest ? 1 : 0));
  small[0] = 1;
  for (let y = 0, at = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1, at += 1) {
      if (small[labels[at]!] === 0) continue;
      labels[at] = 0;
      far[at] = 0xffff;
      const edge =
        (x > 0 && labels[at - 1]! !== 0) ||
        (x < width - 1 && labels[at + 1]! !== 0) ||
        (y > 0 && labels[at - width]! !== 0) ||
        (y < height - 1 && labels[at + width]! !== 0);
      if (edge) put(0, at);
    }
  }
  const first = rings[0]!;
  rings[0] = [];
  for (const at of first) for (const to of sides(at, width, height)) if (far[to] === 0) put(0, to);
  const meets = new Uint32Array(256);
  for (let ring = 0; ring < rings.length; ring += 1) {
    const here = rings[ring] ?? [];
    for (let k = 0; k < here.length; k += 1) {
      const at = here[k]!;
      if (far[at] !== ring) continue;
      const x = at % width;
      const y = (at - x) / width;
      for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v += 1) {
        for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u += 1) {
          const to = v * width + u;
          const next = ring + (u === x || v === y ? STEP[0] : STEP[1]);
          if (far[to]! > next) {
            far[to] = next;
            labels[to] = labels[at]!;
            put(next, to);
          } else if (labels[to]! > labels[at]! && far[to]! <= next && far[to]! + 5 >= ring && (u === x || v === y)) {
            meets[Math.min(255, ring + far[to]!)]! += 1;
          }
        }
      }
    }
    rings[ring] = [];
  }
  if (first.length === 0) labels.fill(1);
  labels.fill(1, 0, width);
  labels.fill(1, labels.length - width);
  for (let at = 0; at < labels.length; at += width) {
    labels[at] = 1;
    labels[at + width - 1] = 1;
  }
  return { labels, halfWidth: middleOf(meets) / 2 / STEP[0] };
};

const middleOf = (bins: Uint32Array): number => {
  const half = bins.reduce((sum, count) => sum + count, 0) / 2;
  let [at, below] = [0, 0];
  while (at < bins.length - 1 && below + bins[at]! < half) {
    below += bins[at]!;
    at += 1;
  }
  return at;
};

const sides = (at: number, width: number, height: number): number[] => {
  const [x, y] = [at % width, Math.floor(at / width)];
  const near: number[] = [];
  if (x > 0) near.push(at - 1);
  if (x < width - 1) near.push(at + 1);
  if (y > 0) near.push(at - width);
  if (y < height - 1) near.push(at + width);
  return near;
};
