import type { ThinInk } from './thin-ink.ts';

/** A run of thinned ink from one end or branching to the next. */
export interface Stroke {
  /** In order, both ends with it; of a ring, the first is not repeated. */
  readonly pixels: readonly number[];
  /** How many strokes leave its first and its last pixel; 1 is a free end. Of a ring, 2. */
  readonly degrees: readonly [number, number];
}

/** Neighbours by side, then by corner where no side leads there: so a staircase is one run and not a row of branchings. */
const neighboursOf = (thin: Uint8Array, width: number, p: number): number[] => {
  const [n, e, s, w] = [thin[p - width]!, thin[p + 1]!, thin[p + width]!, thin[p - 1]!];
  const found: number[] = [];
  if (n === 1) found.push(p - width);
  if (e === 1) found.push(p + 1);
  if (s === 1) found.push(p + width);
  if (w === 1) found.push(p - 1);
  if ((n | e) === 0 && thin[p - width + 1] === 1) found.push(p - width + 1);
  if ((s | e) === 0 && thin[p + width + 1] === 1) found.push(p + width + 1);
  if ((s | w) === 0 && thin[p + width - 1] === 1) found.push(p + width - 1);
  if ((n | w) === 0 && thin[p - width - 1] === 1) found.push(p - width - 1);
  return found;
};

/** Takes thinned ink apart into strokes. Single pixels are strokes of one pixel. */
export const traceStrokes = ({ thin, width, pixels: ink }: ThinInk): Stroke[] => {
  const seen = new Uint8Array(thin.length);
  const strokes: Stroke[] = [];
  const near = (p: number): number[] => neighboursOf(thin, width, p);
  const walk = (from: number, next: number): Stroke => {
    const pixels = [from, next];
    let here = near(next);
    for (let [last, p] = [from, next]; here.length === 2 && seen[p] === 0;) {
      seen[p] = 1;
      [last, p] = [p, here[0] === last ? here[1]! : here[0]!];
      if (p === from) break;
      pixels.push(p);
      here = near(p);
    }
    return { pixels, degrees: [near(from).length, near(pixels.at(-1)!).length] };
  };
  for (const p of ink) {
    const around = near(p);
    if (around.length === 2) continue;
    seen[p] = 1;
    if (around.length === 0) strokes.push({ pixels: [p], degrees: [0, 0] });
    for (const q of around) {
      if (seen[q] === 0) strokes.push(walk(p, q));
    }
  }
  for (const p of ink) {
    if (seen[p] === 1) continue;
    seen[p] = 1;
    strokes.push(walk(p, near(p)[0]!));
  }
  return strokes;
};

/** Without side shoots of at most `length` pixels: what thinning leaves at the corners of a thick stroke. */
export const pruneShoots = (ink: ThinInk, length: number): ThinInk => {
  const thin = ink.thin.slice();
  for (const { pixels, degrees } of traceStrokes(ink)) {
    if (pixels.length > length + 1 || Math.min(...degrees) !== 1 || Math.max(...degrees) < 3) continue;
    for (const p of degrees[0] === 1 ? pixels.slice(0, -1) : pixels.slice(1)) thin[p] = 0;
  }
  return { thin, width: ink.width, pixels: ink.pixels.filter((p) => thin[p] === 1) };
};
