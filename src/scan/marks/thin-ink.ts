/** Ink one pixel wide: 1 in `thin` at each of its `pixels`, which are in order; the outermost pixels are free. */
export interface ThinInk {
  readonly thin: Uint8Array;
  readonly width: number;
  readonly pixels: readonly number[];
}

/**
 * Thins ink to lines one pixel wide that keep its branches and holes: two passes in turn, by the parallel method of Guo and Hall
 * (Communications of the ACM 32, 1989). The outermost pixels must be free of ink. Each pass looks only at pixels still there.
 */
export const thinInk = (ink: Uint8Array, width: number): ThinInk => {
  const thin = ink.slice();
  let left: number[] = [];
  for (let p = 0; p < thin.length; p += 1) if (thin[p] === 1) left.push(p);
  for (let quiet = 0, odd = false; quiet < 2; odd = !odd) {
    const gone = left.filter((p) => goes(thin, width, p, odd));
    for (const p of gone) thin[p] = 0;
    quiet = gone.length === 0 ? quiet + 1 : 0;
    if (gone.length > 0) left = left.filter((p) => thin[p] === 1);
  }
  return { thin, width, pixels: left };
};

const goes = (thin: Uint8Array, width: number, p: number, odd: boolean): boolean => {
  const n = thin[p - width]!;
  const ne = thin[p - width + 1]!;
  const e = thin[p + 1]!;
  const se = thin[p + width + 1]!;
  const s = thin[p + width]!;
  const sw = thin[p + width - 1]!;
  const w = thin[p - 1]!;
  const nw = thin[p - width - 1]!;
  const runs = ((n ^ 1) & (ne | e)) + ((e ^ 1) & (se | s)) + ((s ^ 1) & (sw | w)) + ((w ^ 1) & (nw | n));
  if (runs !== 1) return false;
  const count = Math.min((nw | n) + (ne | e) + (se | s) + (sw | w), (n | ne) + (e | se) + (s | sw) + (w | nw));
  if (count < 2 || count > 3) return false;
  return (odd ? (n | ne | (se ^ 1)) & e : (s | sw | (nw ^ 1)) & w) === 0;
};
