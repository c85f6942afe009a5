/**
 * A small linear program with bounded variables, solved by the primal simplex method. Longer than most functions because
 * it is a kernel: four rows, a few dozen columns, run thousands of times in one search.
 */

/** Rows of the program; every program here has this many. */
export const ROWS = 4;

/** One column: `ROWS` coefficients, cost per unit, and an upper bound (the lower one is 0). */
export interface Column {
  readonly rows: readonly [number, number, number, number];
  readonly cost: number;
  readonly most: number;
}

export interface Optimum {
  /** Of each column, between 0 and its bound. */
  readonly values: Float64Array;
  readonly cost: number;
}

const MOST_STEPS = 400;
const SMALL = 1e-10;

/**
 * Least `sum cost x` with `sum rows x = wanted` and `0 <= x <= most`.
 *
 * For every row there must be an unbounded column of either sign with nothing in other rows, from `firstSlack` on in the
 * order +row 0, -row 0, +row 1 and so on: these make the start, so the program always has a solution, and what is wanted must
 * be kept out of them by their cost. G. B. Dantzig's rule, with R. G. Bland's (1977) after a while so that it cannot run
 * in circles. Tested against HiGHS.
 */
export function leastCost(columns: readonly Column[], wanted: readonly number[], firstSlack: number): Optimum {
  const values = new Float64Array(columns.length);
  const basis = new Int32Array(ROWS);
  const inBasis = new Int32Array(columns.length).fill(-1);
  // The inverse of the basis, by rows.
  const inverse = new Float64Array(ROWS * ROWS);
  for (let row = 0; row < ROWS; row += 1) {
    const need = wanted[row] as number;
    const column = firstSlack + 2 * row + (need < 0 ? 1 : 0);
    basis[row] = column;
    inBasis[column] = row;
    values[column] = Math.abs(need);
    inverse[row * ROWS + row] = need < 0 ? -1 : 1;
  }
  const price = new Float64Array(ROWS);
  const direction = new Float64Array(ROWS);
  for (let step = 0; step < MOST_STEPS; step += 1) {
    setPrices(price, { columns, basis, inverse });
    const entering = chooseEntering({ columns, values, inBasis, price, byIndex: step > 60 });
    if (entering < 0) break;
    const column = columns[entering] as Column;
    const rises = (values[entering] as number) <= SMALL;
    setDirection(direction, inverse, column.rows);
    move({ columns, values, basis, inBasis, inverse, direction }, entering, rises ? 1 : -1);
  }
  let cost = 0;
  for (let i = 0; i < columns.length; i += 1) cost += (columns[i] as Column).cost * (values[i] as number);
  return { values, cost };
}

interface Basis {
  readonly columns: readonly Column[];
  readonly basis: Int32Array;
  readonly inverse: Float64Array;
}

/** Prices of the rows under the basis: costs times inverse. */
function setPrices(price: Float64Array, { columns, basis, inverse }: Basis): void {
  for (let row = 0; row < ROWS; row += 1) {
    let sum = 0;
    for (let i = 0; i < ROWS; i += 1) {
      sum += (columns[basis[i] as number] as Column).cost * (inverse[i * ROWS + row] as number);
    }
    price[row] = sum;
  }
}

/** The column whose change gains most, or the first that gains at all; -1 when none does. */
function chooseEntering(state: {
  readonly columns: readonly Column[];
  readonly values: Float64Array;
  readonly inBasis: Int32Array;
  readonly price: Float64Array;
  readonly byIndex: boolean;
}): number {
  const { columns, values, inBasis, price, byIndex } = state;
  let entering = -1;
  let most = 1e-9;
  for (let i = 0; i < columns.length; i += 1) {
    if ((inBasis[i] as number) >= 0) continue;
    const { rows, cost, most: bound } = columns[i] as Column;
    const reduced =
      cost -
      (price[0] as number) * rows[0] -
      (price[1] as number) * rows[1] -
      (price[2] as number) * rows[2] -
      (price[3] as number) * rows[3];
    const gain = (values[i] as number) > SMALL ? reduced : -reduced;
    if (gain > most && bound > SMALL) {
      entering = i;
      if (byIndex) return entering;
      most = gain;
    }
  }
  return entering;
}

function setDirection(direction: Float64Array, inverse: Float64Array, rows: Column['rows']): void {
  for (let i = 0; i < ROWS; i += 1) {
    const at = i * ROWS;
    direction[i] =
      (inverse[at] as number) * rows[0] +
      (inverse[at + 1] as number) * rows[1] +
      (inverse[at + 2] as number) * rows[2] +
      (inverse[at + 3] as number) * rows[3];
  }
}

interface Tableau extends Basis {
  readonly values: Float64Array;
  readonly inBasis: Int32Array;
  readonly direction: Float64Array;
}

/** Moves the entering column up or down as far as it may go, and swaps it with the column that stops it. */
function move(tableau: Tableau, entering: number, sign: 1 | -1): void {
  const { columns, values, basis, inBasis, inverse, direction } = tableau;
  const column = columns[entering] as Column;
  let by = column.most;
  let leavingRow = -1;
  for (let i = 0; i < ROWS; i += 1) {
    const slope = -sign * (direction[i] as number);
    if (Math.abs(slope) < SMALL) continue;
    const at = basis[i] as number;
    const value = values[at] as number;
    const room = slope < 0 ? value / -slope : ((columns[at] as Column).most - value) / slope;
    if (room < by - 1e-12) [by, leavingRow] = [Math.max(0, room), i];
  }
  for (let i = 0; i < ROWS; i += 1) {
    const at = basis[i] as number;
    values[at] = (values[at] as number) - sign * by * (direction[i] as number);
  }
  // A column that comes down does so from its bound.
  values[entering] = sign > 0 ? by : column.most - by;
  if (leavingRow < 0) return;
  const leaving = basis[leavingRow] as number;
  const bound = (columns[leaving] as Column).most;
  // What leaves does so at one of its bounds, exactly.
  values[leaving] = (values[leaving] as number) > bound / 2 ? bound : 0;
  basis[leavingRow] = entering;
  inBasis[leaving] = -1;
  inBasis[entering] = leavingRow;
  pivot(inverse, direction, leavingRow);
}

function pivot(inverse: Float64Array, direction: Float64Array, row: number): void {
  const divisor = direction[row] as number;
  for (let c = 0; c < ROWS; c += 1) inverse[row * ROWS + c] = (inverse[row * ROWS + c] as number) / divisor;
  for (let i = 0; i < ROWS; i += 1) {
    if (i === row) continue;
    const by = direction[i] as number;
    for (let c = 0; c < ROWS; c += 1) {
      inverse[i * ROWS + c] = (inverse[i * ROWS + c] as number) - by * (inverse[row * ROWS + c] as number);
    }
  }
}
