/** A stretch of the boundary between two faces, from one place where three faces meet to the next; or all round, if there is none. */
export interface Arc {
  /** Numbers of the pixel corners it begins and ends at; the same for one that goes all round. */
  readonly from: number;
  readonly to: number;
  /** Whether it is a loop that no other arc touches. */
  readonly alone: boolean;
  /** x and y in turn, from pixel corner to pixel corner. */
  readonly places: Int32Array;
  /** The faces to the left and to the right of the way it runs. */
  readonly left: number;
  readonly right: number;
}

/** Right, down, left, up. */
const WAYS = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;

/** Whether three ways or four leave a corner, given as bits. */
const isNode = (open: number): boolean => open === 15 || open === 7 || open === 11 || open === 13 || open === 14;

/** The boundaries between faces as arcs. The picture's border must be all of one face. */
export const traceArcs = (labels: Int32Array, width: number, height: number): Arc[] => {
  const done = new Uint8Array(labels.length);
  /** The ways out of the corner above and to the left of pixel `at`, as bits. */
  const ways = (at: number): number => {
    const [a, b, c, d] = [labels[at - width - 1]!, labels[at - width]!, labels[at - 1]!, labels[at]!];
    return (b !== d ? 1 : 0) | (c !== d ? 2 : 0) | (a !== c ? 4 : 0) | (a !== b ? 8 : 0);
  };
  const follow = (start: number, first: number): Arc => {
    const places: number[] = [start % width, Math.floor(start / width)];
    let [at, way] = [start, first];
    const [x, y] = [start % width, Math.floor(start / width)];
    const beside = [
      [start - width, start],
      [start, start - 1],
      [start - 1, start - width - 1],
      [start - width - 1, start - width],
    ][first]!;
    let [u, v] = [x, y];
    for (;;) {
      done[at]! |= 1 << way;
      u += WAYS[way]![0];
      v += WAYS[way]![1];
      at = v * width + u;
      done[at]! |= 1 << ((way + 2) % 4);
      places.push(u, v);
      const open = ways(at);
      if (isNode(open) || at === start) break;
      const onwards = open & ~(1 << ((way + 2) % 4));
      way = onwards === 1 ? 0 : onwards === 2 ? 1 : onwards === 4 ? 2 : 3;
    }
    const alone = at === start && !isNode(ways(start));
    return {
      from: start,
      to: at,
      alone,
      places: Int32Array.from(places),
      left: labels[beside[0]!]!,
      right: labels[beside[1]!]!,
    };
  };
  const corners: number[] = [];
  for (let y = 1; y < height; y += 1) {
    for (let at = y * width + 1; at < (y + 1) * width; at += 1) {
      const own = labels[at]!;
      if (own !== labels[at - 1]! || own !== labels[at - width]! || own !== labels[at - width - 1]!) corners.push(at);
    }
  }
  const arcs: Arc[] = [];
  for (const nodes of [true, false]) {
    for (const at of corners) {
      const open = ways(at) & ~done[at]!;
      if (open === 0 || isNode(ways(at)) !== nodes) continue;
      for (let way = 0; way < 4; way += 1) {
        if ((open & ~done[at]! & (1 << way)) !== 0) arcs.push(follow(at, way));
      }
    }
  }
  return arcs;
};
