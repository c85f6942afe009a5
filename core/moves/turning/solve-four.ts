/** Four linear equations with four unknowns: three of a displacement, one of a length. */

import type { Vector } from '../../path/vector.ts';

type Unknowns = readonly [number, number, number, number];

/** Solves columns (vector over length) times x = (left, longMm) by elimination with pivoting; null when singular. */
export function solveFour(
  columns: readonly [Vector, Vector, Vector, Vector],
  lengths: Unknowns,
  left: Vector,
  longMm: number,
): Unknowns | null {
  const rows = (['x', 'y', 'z'] as const).map((axis) => [...columns.map((column) => column[axis]), left[axis]]);
  rows.push([...lengths, longMm]);
  for (let c = 0; c < 4; c += 1) {
    let pivot = c;
    for (let r = c + 1; r < 4; r += 1) {
      if (Math.abs(rows[r]?.[c] ?? 0) > Math.abs(rows[pivot]?.[c] ?? 0)) pivot = r;
    }
    const row = rows[pivot] as number[];
    if (Math.abs(row[c] as number) < 1e-6) return null;
    [rows[pivot], rows[c]] = [rows[c] as number[], row];
    for (let r = 0; r < 4; r += 1) {
      const other = rows[r] as number[];
      const by = r === c ? 0 : (other[c] as number) / (row[c] as number);
      if (by !== 0) for (let k = c; k < 5; k += 1) other[k] = (other[k] as number) - by * (row[k] as number);
    }
  }
  const x = rows.map((row, i) => (row[4] as number) / (row[i] as number));
  return [x[0] as number, x[1] as number, x[2] as number, x[3] as number];
}
