/**
 * Solves A x = b for a symmetric positive definite matrix given by rows, by Cholesky's decomposition in place of its lower half; `b`
 * becomes x. False, with both spoilt, where the matrix is not positive definite as far as rounding tells.
 */
export const solveSymmetric = (a: Float64Array, b: Float64Array, size: number): boolean => {
  for (let j = 0; j < size; j += 1) {
    const row = j * size;
    let first = 0;
    while (first < j && a[row + first] === 0) first += 1;
    for (let k = first; k <= j; k += 1) {
      const other = k * size;
      let sum = a[row + k]!;
      for (let i = first; i < k; i += 1) sum -= a[row + i]! * a[other + i]!;
      if (k < j) a[row + k] = sum / a[other + k]!;
      else if (sum > 0) a[row + k] = Math.sqrt(sum);
      else return false;
    }
  }
  for (let j = 0; j < size; j += 1) {
    let sum = b[j]!;
    for (let i = 0; i < j; i += 1) sum -= a[j * size + i]! * b[i]!;
    b[j] = sum / a[j * size + j]!;
  }
  for (let j = size - 1; j >= 0; j -= 1) {
    let sum = b[j]!;
    for (let i = j + 1; i < size; i += 1) sum -= a[i * size + j]! * b[i]!;
    b[j] = sum / a[j * size + j]!;
  }
  return true;
};
