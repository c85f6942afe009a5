/** Least squares within limits by Levenberg's and Marquardt's method with differences for derivatives: plain, and apart from the program's own. */

export interface Fit {
  /** Fills `left` with what is left at these values. */
  readonly misses: (values: Float64Array, left: Float64Array) => void;
  readonly rows: number;
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** Step of the differences for each value. */
  readonly steps: readonly number[];
  readonly isMet: (left: Float64Array) => boolean;
}

const MOST_ROUNDS = 40;

/** Values that meet what is asked, found from a start; null when the descent stalls first. */
export function fitted(fit: Fit, start: ArrayLike<number>): Float64Array | null {
  const count = fit.steps.length;
  const held = (value: number, i: number) => Math.min(fit.high[i] as number, Math.max(fit.low[i] as number, value));
  let values = Float64Array.from(start, held);
  let left = new Float64Array(fit.rows);
  fit.misses(values, left);
  let damping = 1e-3;
  let stalls = 0;
  for (let round = 0; round < MOST_ROUNDS && stalls < 6; round += 1) {
    if (fit.isMet(left)) return values;
    const columns = derivatives(fit, values, left);
    const step = dampedStep(columns, left, damping, (i, by) => held((values[i] as number) + by, i) !== values[i]);
    const next = Float64Array.from({ length: count }, (_, i) => held((values[i] as number) + (step[i] as number), i));
    const after = new Float64Array(fit.rows);
    fit.misses(next, after);
    const [was, now] = [squares(left), squares(after)];
    if (now < was) {
      stalls = now > 0.9 * was ? stalls + 1 : 0;
      [values, left] = [next, after];
      damping = Math.max(1e-9, damping / 8);
    } else {
      damping *= 8;
      stalls += 1;
    }
  }
  return fit.isMet(left) ? values : null;
}

function squares(left: Float64Array): number {
  return dot(left, left);
}

function derivatives(fit: Fit, values: Float64Array, left: Float64Array): readonly Float64Array[] {
  return fit.steps.map((by, i) => {
    const moved = Float64Array.from(values);
    // Away from a limit that it presses against.
    const signed = (values[i] as number) + by > (fit.high[i] as number) ? -by : by;
    moved[i] = (values[i] as number) + signed;
    const column = new Float64Array(fit.rows);
    fit.misses(moved, column);
    for (let row = 0; row < fit.rows; row += 1)
      column[row] = ((column[row] as number) - (left[row] as number)) / signed;
    return column;
  });
}

/** Values that would only be pushed over their limits stay. */
function dampedStep(
  columns: readonly Float64Array[],
  left: Float64Array,
  damping: number,
  mayMove: (i: number, by: number) => boolean,
): Float64Array {
  const slopes = columns.map((column) => -dot(column, left));
  const free = columns.flatMap((_, i) => (mayMove(i, slopes[i] as number) ? [i] : []));
  const matrix = free.map((i) =>
    free.map((j) => dot(columns[i] as Float64Array, columns[j] as Float64Array) * (i === j ? 1 + damping : 1)),
  );
  const solved = eliminated(
    matrix,
    free.map((i) => slopes[i] as number),
  );
  const step = new Float64Array(columns.length);
  for (const [at, i] of free.entries()) step[i] = solved[at] as number;
  return step;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let row = 0; row < a.length; row += 1) sum += (a[row] as number) * (b[row] as number);
  return sum;
}

/** Gauss' elimination with pivots; what hangs on nothing is zero. */
function eliminated(matrix: number[][], right: number[]): readonly number[] {
  const count = right.length;
  for (let at = 0; at < count; at += 1) {
    let pivot = at;
    for (let row = at + 1; row < count; row += 1) {
      if (Math.abs(matrix[row]?.[at] as number) > Math.abs(matrix[pivot]?.[at] as number)) pivot = row;
    }
    [matrix[at], matrix[pivot]] = [matrix[pivot] as number[], matrix[at] as number[]];
    [right[at], right[pivot]] = [right[pivot] as number, right[at] as number];
    const head = matrix[at]?.[at] as number;
    if (Math.abs(head) < 1e-14) continue;
    for (let row = at + 1; row < count; row += 1) {
      const share = (matrix[row]?.[at] as number) / head;
      for (let column = at; column < count; column += 1) {
        (matrix[row] as number[])[column] =
          (matrix[row]?.[column] as number) - share * (matrix[at]?.[column] as number);
      }
      right[row] = (right[row] as number) - share * (right[at] as number);
    }
  }
  const solved = new Array<number>(count).fill(0);
  for (let at = count - 1; at >= 0; at -= 1) {
    const head = matrix[at]?.[at] as number;
    if (Math.abs(head) < 1e-14) continue;
    let sum = right[at] as number;
    for (let column = at + 1; column < count; column += 1)
      sum -= (matrix[at]?.[column] as number) * (solved[column] as number);
    solved[at] = sum / head;
  }
  return solved;
}
