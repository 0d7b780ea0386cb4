import type { Point } from './point.ts';

/** Straight links, end by end, in plain arrays. */
export interface Links {
  readonly ax: Float64Array;
  readonly ay: Float64Array;
  readonly bx: Float64Array;
  readonly by: Float64Array;
}

/** A uniform grid over links: `held` from `first[cell]` to `first[cell + 1]` are the links whose boxes touch a cell. */
export interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly first: Int32Array;
  readonly held: Int32Array;
  readonly column: (x: number) => number;
  readonly row: (y: number) => number;
}

export const newLinks = (count: number): Links => ({
  ax: new Float64Array(count),
  ay: new Float64Array(count),
  bx: new Float64Array(count),
  by: new Float64Array(count),
});

export const setLink = (links: Links, index: number, a: Point, b: Point): void => {
  links.ax[index] = a.x;
  links.ay[index] = a.y;
  links.bx[index] = b.x;
  links.by[index] = b.y;
};

/** The grid whose cells are `cell` mm wide, or as much wider as keeps their number in proportion to that of the links. */
export const gridOf = (links: Links, cell: number): Grid => {
  const { ax, ay, bx, by } = links;
  const count = ax.length;
  let minX = Number.POSITIVE_INFINITY;
  let minY = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let maxY = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i += 1) {
    minX = Math.min(minX, ax[i]!, bx[i]!);
    minY = Math.min(minY, ay[i]!, by[i]!);
    maxX = Math.max(maxX, ax[i]!, bx[i]!);
    maxY = Math.max(maxY, ay[i]!, by[i]!);
  }
  const width = maxX - minX;
  const height = maxY - minY;
  const size = Math.max(
    cell,
    Math.sqrt((width * height) / (2 * count)),
    (width + height) / (2 * count),
    Number.MIN_VALUE,
  );
  const columns = Math.floor(width / size) + 1;
  const rows = Math.floor(height / size) + 1;
  const column = (x: number): number => Math.min(columns - 1, Math.max(0, Math.floor((x - minX) / size)));
  const row = (y: number): number => Math.min(rows - 1, Math.max(0, Math.floor((y - minY) / size)));
  const first = new Int32Array(columns * rows + 1);
  // Two passes: how many links each cell holds, then which.
  for (let i = 0; i < count; i += 1) {
    const c1 = column(Math.max(ax[i]!, bx[i]!));
    const r1 = row(Math.max(ay[i]!, by[i]!));
    const c0 = column(Math.min(ax[i]!, bx[i]!));
    for (let r = row(Math.min(ay[i]!, by[i]!)); r <= r1; r += 1)
      for (let c = c0; c <= c1; c += 1) first[r * columns + c + 1]! += 1;
  }
  for (let i = 1; i < first.length; i += 1) first[i]! += first[i - 1]!;
  const held = new Int32Array(first[first.length - 1]!);
  const next = first.slice(0, -1);
  for (let i = 0; i < count; i += 1) {
    const c1 = column(Math.max(ax[i]!, bx[i]!));
    const r1 = row(Math.max(ay[i]!, by[i]!));
    const c0 = column(Math.min(ax[i]!, bx[i]!));
    for (let r = row(Math.min(ay[i]!, by[i]!)); r <= r1; r += 1) {
      for (let c = c0; c <= c1; c += 1) {
        held[next[r * columns + c]!] = i;
        next[r * columns + c]! += 1;
      }
    }
  }
  return { columns, rows, first, held, column, row };
};
