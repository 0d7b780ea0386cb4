/**
 * A straight line through many readings of one side of which up to half may be wrong together: a pencil mark along a third of it, a crease.
 * The start is the line with the least median of residuals among the lines through the medians of stretches (Rousseeuw 1984), which half
 * of the readings cannot mislead; from there Tukey's biweight, which gives readings that stand off no weight at all.
 *
 * How sure the line is comes from the scatter of the stretches' means, not from single readings: neighbouring readings share pixels, and
 * paper waves over millimetres, so that they are far from independent.
 */

/** Offsets are across the line that was guessed, at places along it; both in pixels. */
export interface SideReadings {
  readonly along: Float64Array;
  /** NaN where nothing could be read. */
  readonly offset: Float64Array;
}

/** The line `offset = middle + slope * along`. */
export interface SideFit {
  /** Offset where `along` is 0. */
  readonly middle: number;
  readonly slope: number;
  /** Squares of the standard errors of the two, from the scatter of stretches. */
  readonly middleVariance: number;
  readonly slopeVariance: number;
  /** The share of all readings that lie on the line. */
  readonly good: number;
}

/** Stretches into which a side is cut: enough for a scatter, and each far longer than the few pixels over which readings are alike. */
const STRETCHES = 16;

/** Tukey's biweight keeps 95 % of the accuracy of least squares on clean readings with this many standard deviations. */
const TUKEY = 4.685;

/** The standard deviation of normal readings, as a multiple of their median absolute residual. */
const PER_MEDIAN = 1.4826;

const ROUNDS = 20;

/** In the first rounds the scatter follows the line; then it stays, so that the rest settles. */
const SCATTER_ROUNDS = 3;

/**
 * Fits one side. `most` is how far a reading may lie off the line and still count as on it, and below the scatter `least` no reading is
 * told from another; both in pixels. Undefined where fewer than a quarter of the stretches can be read. Deterministic; the order of the
 * readings does not matter.
 */
export const fitSide = ({ along, offset }: SideReadings, most: number, least: number): SideFit | undefined => {
  const read = [...along.keys()].filter((i) => !Number.isNaN(offset[i]!));
  const stretchOf = stretchesOf(along);
  const medians = mediansOf(read, stretchOf, along, offset);
  if (medians.length < STRETCHES / 4) return undefined;
  let { middle, slope } = leastMedianLine(medians);
  const weight = new Float64Array(along.length);
  let reach = Infinity;
  for (let round = 0; round < ROUNDS; round += 1) {
    const off = read.map((i) => Math.abs(offset[i]! - middle - slope * along[i]!));
    if (round < SCATTER_ROUNDS) reach = Math.min(TUKEY * Math.max(PER_MEDIAN * quantile(off, 0.5), least), most);
    read.forEach((i, k) => (weight[i] = off[k]! < reach ? (1 - (off[k]! / reach) ** 2) ** 2 : 0));
    const next = weightedLine(read, weight, along, offset);
    if (next === undefined) return undefined;
    const moved = Math.abs(next.middle - middle) + Math.abs(next.slope - slope) * along.length;
    ({ middle, slope } = next);
    if (round >= SCATTER_ROUNDS && moved < SETTLED) break;
  }
  const good = read.filter((i) => weight[i]! > 0).length / along.length;
  return { middle, slope, good, ...variancesOf({ middle, slope }, read, stretchOf, weight, along, offset) };
};

/** Pixels: far below what any reading is worth. */
const SETTLED = 1e-5;

/**
 * Whether each value lies off the median by more than what separates it from chance; `least` is the scatter below which nothing is told
 * apart. NaN stays out of the count and lies off.
 */
export const liesOff = (values: Float64Array, least: number): boolean[] => {
  const known = [...values].filter((value) => !Number.isNaN(value));
  if (known.length === 0) return [...values].map(() => true);
  const middle = quantile(known, 0.5);
  const scatter = quantile(
    known.map((value) => Math.abs(value - middle)),
    0.5,
  );
  const reach = TUKEY * Math.max(PER_MEDIAN * scatter, least);
  return [...values].map((value) => !(Math.abs(value - middle) <= reach));
};

interface Straight {
  readonly middle: number;
  readonly slope: number;
}

/** The number of the stretch in which each place lies. */
const stretchesOf = (along: Float64Array): Uint8Array => {
  let first = Infinity;
  let last = -Infinity;
  for (const place of along) {
    first = Math.min(first, place);
    last = Math.max(last, place);
  }
  const length = Math.max(last - first, SETTLED);
  return Uint8Array.from(along, (place) => Math.min(STRETCHES - 1, Math.floor(((place - first) / length) * STRETCHES)));
};

/** The middle reading of each stretch of which at least one was read. */
const mediansOf = (
  read: readonly number[],
  stretchOf: Uint8Array,
  along: Float64Array,
  offset: Float64Array,
): { along: number; offset: number }[] => {
  const stretches = Array.from({ length: STRETCHES }, (): number[] => []);
  for (const i of read) stretches[stretchOf[i]!]!.push(i);
  return stretches
    .filter((stretch) => stretch.length > 0)
    .map((stretch) => ({
      along: quantile(
        stretch.map((i) => along[i]!),
        0.5,
      ),
      offset: quantile(
        stretch.map((i) => offset[i]!),
        0.5,
      ),
    }));
};

const ascending = (a: number, b: number): number => a - b;

/** Of the lines through two medians that lie well apart, the one off which the better half of the medians lies least. */
const leastMedianLine = (medians: readonly { along: number; offset: number }[]): Straight => {
  let best = { middle: 0, slope: 0, off: Infinity };
  const half = Math.floor(medians.length / 2);
  medians.forEach((p, i) => {
    for (const q of medians.slice(i + 2)) {
      const slope = (q.offset - p.offset) / (q.along - p.along);
      const middle = p.offset - slope * p.along;
      // The largest residual of the better half, and no mean with the first of the worse half.
      const off = medians.map((m) => Math.abs(m.offset - middle - slope * m.along)).toSorted(ascending)[half]!;
      if (off < best.off) best = { middle, slope, off };
    }
  });
  return best;
};

const weightedLine = (
  read: readonly number[],
  weight: Float64Array,
  along: Float64Array,
  offset: Float64Array,
): Straight | undefined => {
  let [w, wx, wy, wxx, wxy] = [0, 0, 0, 0, 0];
  for (const i of read) {
    const [each, x, y] = [weight[i]!, along[i]!, offset[i]!];
    w += each;
    wx += each * x;
    wy += each * y;
    wxx += each * x * x;
    wxy += each * x * y;
  }
  const spread = w * wxx - wx * wx;
  if (!(spread > 0)) return undefined;
  const slope = (w * wxy - wx * wy) / spread;
  return { slope, middle: (wy - slope * wx) / w };
};

/** Standard errors of a line through the means of the stretches, each with the weight of its readings. */
const variancesOf = (
  { middle, slope }: Straight,
  read: readonly number[],
  stretchOf: Uint8Array,
  weight: Float64Array,
  along: Float64Array,
  offset: Float64Array,
): { middleVariance: number; slopeVariance: number } => {
  const sums = Array.from({ length: STRETCHES }, () => ({ weight: 0, along: 0, off: 0 }));
  for (const i of read) {
    const sum = sums[stretchOf[i]!]!;
    sum.weight += weight[i]!;
    sum.along += weight[i]! * along[i]!;
    sum.off += weight[i]! * (offset[i]! - middle - slope * along[i]!);
  }
  const means = sums.filter((sum) => sum.weight > 0);
  if (means.length < 4) return { middleVariance: Infinity, slopeVariance: Infinity };
  let [w, wx, wxx, scatter] = [0, 0, 0, 0];
  for (const sum of means) {
    w += sum.weight;
    wx += sum.along;
    wxx += sum.along ** 2 / sum.weight;
    scatter += sum.off ** 2 / sum.weight;
  }
  const each = scatter / (means.length - 2);
  const spread = w * wxx - wx * wx;
  return { middleVariance: (each * wxx) / spread, slopeVariance: (each * w) / spread };
};

/** The value below which the given share of the values lies. */
const quantile = (values: readonly number[], share: number): number => {
  const sorted = Float64Array.from(values).toSorted();
  const last = sorted.length - 1;
  const at = Math.min(last, Math.max(0, share * sorted.length - 0.5));
  const below = Math.floor(at);
  const above = Math.min(last, below + 1);
  return sorted[below]! + (sorted[above]! - sorted[below]!) * (at - below);
};
