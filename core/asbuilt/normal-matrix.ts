/** Small symmetric matrices of covariances: factored, and asked how far a vector is out by them. */

/** Rows of equal length. */
export type Matrix = readonly (readonly number[])[];

/**
 * The lower triangle L with L L^T the matrix (Cholesky).
 * @param matrix symmetric; only its lower triangle is read
 * @returns null when the matrix is not positive definite to rounding. Cost: the cube of the rows, of which there are eight at most here.
 */
export function choleskyFactor(matrix: Matrix): Matrix | null {
  const factor: number[][] = [];
  for (const [i, row] of matrix.entries()) {
    const found: number[] = [];
    for (let j = 0; j <= i; j += 1) {
      const other = j === i ? found : (factor[j] ?? []);
      let rest = row[j] ?? 0;
      for (let k = 0; k < j; k += 1) rest -= (found[k] ?? 0) * (other[k] ?? 0);
      if (j < i) found.push(rest / (other[j] ?? 1));
      else if (rest > 0) found.push(Math.sqrt(rest));
      else return null;
    }
    factor.push(found);
  }
  return factor;
}

/** L^-1 v: the vector in standard deviations, one independent of the other. */
export function whitened(factor: Matrix, vector: readonly number[]): readonly number[] {
  const out: number[] = [];
  for (const [i, row] of factor.entries()) {
    let rest = vector[i] ?? 0;
    for (let k = 0; k < i; k += 1) rest -= (row[k] ?? 0) * (out[k] ?? 0);
    out.push(rest / (row[i] ?? 1));
  }
  return out;
}

export function innerProduct(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, index) => sum + value * (b[index] ?? 0), 0);
}

/** Natural logarithm of the determinant of the matrix that was factored. */
export function logDeterminant(factor: Matrix): number {
  return 2 * factor.reduce((sum, row, index) => sum + Math.log(row[index] ?? 1), 0);
}

/** The 99th percentile of the standard normal distribution. */
const NORMAL_99 = 2.3263478740408408;

/**
 * The value that a sum of `degrees` squared standard deviations stays under 99 times in 100.
 * Method: Wilson and Hilferty, The distribution of chi-square, PNAS 17 (1931); within 2 % for one degree, 1 % from two on.
 */
export function chiSquared99(degrees: number): number {
  const part = 2 / (9 * degrees);
  return degrees * (1 - part + NORMAL_99 * Math.sqrt(part)) ** 3;
}
