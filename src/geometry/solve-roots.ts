/**
 * Roots in [0, 1] of a polynomial given by its Bernstein coefficients (the ordinates of a Bezier curve), of any degree.
 * By variation diminishing: no change of sign, no root; one change, exactly one root; more, halve it (Lane and Riesenfeld, 1981).
 * No formula with square roots of differences, so nearly vanishing leading coefficients do no harm.
 */

const MAX_DEPTH = 48;
const MAX_STEPS = 80;

const signChanges = (c: readonly number[]): number => {
  let changes = 0;
  let sign = 0;
  for (const value of c) {
    if (value === 0) continue;
    const next = value > 0 ? 1 : -1;
    if (sign !== 0 && next !== sign) changes += 1;
    sign = next;
  }
  return changes;
};

const halve = (c: readonly number[]): [number[], number[]] => {
  const row = c.slice();
  const n = row.length;
  const left: number[] = [];
  const right: number[] = Array.from({ length: n }, () => 0);
  for (let k = 0; k < n; k += 1) {
    left.push(row[0]!);
    right[n - 1 - k] = row[n - 1 - k]!;
    for (let i = 0; i < n - 1 - k; i += 1) row[i] = (row[i]! + row[i + 1]!) / 2;
  }
  return [left, right];
};

/** The value at `t` of the polynomial with these Bernstein coefficients: nested multiplication, without making arrays. */
export const bernsteinAt = (c: readonly number[], t: number): number => {
  const n = c.length - 1;
  if (n < 1) return c[0] ?? 0;
  const u = 1 - t;
  let sum = c[0]! * u;
  let factor = 1;
  for (let i = 1; i < n; i += 1) {
    factor *= (t * (n - i + 1)) / i;
    sum = (sum + factor * c[i]!) * u;
  }
  return sum + t ** n * c[n]!;
};

/** The one root in (0, 1) where the end coefficients differ in sign: regula falsi (Illinois), halving at every fourth step and where that stalls. */
const onlyRoot = (c: readonly number[]): number => {
  let [a, fa, b, fb] = [0, c[0]!, 1, c.at(-1)!];
  let side = 0;
  for (let step = 0; step < MAX_STEPS && b - a > Number.EPSILON; step += 1) {
    const chord = (a * fb - b * fa) / (fb - fa);
    const t = step % 4 === 3 || chord <= a || chord >= b ? (a + b) / 2 : chord;
    const ft = bernsteinAt(c, t);
    if (ft === 0) return t;
    if (ft > 0 === fb > 0) {
      [b, fb] = [t, ft];
      if (side === 1) fa /= 2;
      side = 1;
    } else {
      [a, fa] = [t, ft];
      if (side === -1) fb /= 2;
      side = -1;
    }
  }
  return (a + b) / 2;
};

/**
 * All roots in [0, 1], in order, each once. A root where the polynomial touches zero without crossing is found when its coefficients
 * are exact, and may be missed by rounding otherwise: callers who care look at the extrema. The zero polynomial has none.
 */
export const rootsOf = (coefficients: readonly number[]): number[] => {
  const roots: number[] = [];
  const add = (t: number): void => {
    if (!roots.some((known) => Math.abs(known - t) < 4 * Number.EPSILON)) roots.push(t);
  };
  const search = (c: readonly number[], low: number, high: number, depth: number): void => {
    if (c[0] === 0) add(low);
    if (c.at(-1) === 0) add(high);
    const changes = signChanges(c);
    if (changes === 0) return;
    if (changes === 1 && c[0] !== 0 && c.at(-1) !== 0) return add(low + (high - low) * onlyRoot(c));
    if (depth === MAX_DEPTH) return add((low + high) / 2);
    const middle = (low + high) / 2;
    const [left, right] = halve(c);
    search(left, low, middle, depth + 1);
    search(right, middle, high, depth + 1);
  };
  if (coefficients.some((value) => value !== 0)) search(coefficients, 0, 1, 0);
  return roots.toSorted((a, b) => a - b);
};
