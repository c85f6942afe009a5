/** A quick look at where values must lie to bring the end into its windows, before a program is solved for them. */

import { lengthSquared, minus, plus, product, type Shift, scaledBy, unitOf, without } from './shift.ts';
import type { ShiftOption } from './shift-option.ts';
import { middleOf, type ShiftWindows, scalesOf } from './shift-windows.ts';

/** Below this length a column depends on those before it. */
const DEPENDS = 1e-6;

export interface Range {
  readonly low: number;
  readonly high: number;
}

/**
 * Where the value of each shift with a column lies if the set works at all, from its base value; null when it cannot work. `off` is how
 * far off the end is before any of the shifts.
 *
 * In units in which every window is 1 wide to each side, any good answer lies within 2 of the exact one (four figures, each off
 * by 1 at most). So with independent columns each value lies within 2 times the length of its row of the inverse from
 * the least squares answer, and a value that cannot come so near to its limits rules the set out. When the columns depend on
 * each other nothing follows but the limits themselves.
 */
export function fittingRanges(
  chosen: readonly ShiftOption[],
  off: Shift,
  windows: ShiftWindows,
): readonly Range[] | null {
  const scales = scalesOf(windows);
  const jumped = chosen.reduce<Shift>((sum, { offset }) => plus(sum, offset), off);
  const free = chosen.filter(({ column }) => column !== null);
  const triangle = factored(
    free.map(({ column }) => scaledBy(column as Shift, scales)),
    scaledBy(minus(middleOf(windows), jumped), scales),
  );
  const ranges = free.map(({ downMm, upMm }, i) => {
    const { value, strayMm } = triangle === null ? ANYWHERE : estimate(i, triangle);
    return { low: Math.max(-downMm, value - strayMm), high: Math.min(upMm, value + strayMm) };
  });
  return ranges.every(({ low, high }) => low <= high) ? ranges : null;
}

const ANYWHERE = { value: 0, strayMm: Number.POSITIVE_INFINITY };

interface Triangle {
  /** Upper triangle, stored by columns. */
  readonly upper: readonly (readonly number[])[];
  /** What is wanted, along each axis of the columns. */
  readonly parts: readonly number[];
}

/** Columns as orthonormal axes times an upper triangle, by Gram and Schmidt; null when they depend on each other. */
function factored(columns: readonly Shift[], wanted: Shift): Triangle | null {
  const axes: Shift[] = [];
  const upper: number[][] = [];
  const parts: number[] = [];
  for (const column of columns) {
    let left = column;
    const entries = axes.map((axis) => {
      const entry = product(axis, left);
      left = without(left, axis);
      return entry;
    });
    const size = Math.sqrt(lengthSquared(left));
    if (size < DEPENDS) return null;
    const axis = unitOf(left);
    axes.push(axis);
    upper.push([...entries, size]);
    parts.push(product(axis, wanted));
  }
  return { upper, parts };
}

/** The least squares value of one shift, by row i of the triangle's inverse (from the bottom up), and how far it may stray. */
function estimate(i: number, { upper, parts }: Triangle): { readonly value: number; readonly strayMm: number } {
  const row: number[] = [];
  for (let j = i; j < upper.length; j += 1) {
    let sum = j === i ? 1 : 0;
    for (let k = i; k < j; k += 1) sum -= (row[k - i] as number) * (upper[j]?.[k] as number);
    row.push(sum / (upper[j]?.[j] as number));
  }
  let value = 0;
  let square = 0;
  for (const [step, entry] of row.entries()) {
    value += entry * (parts[i + step] as number);
    square += entry * entry;
  }
  return { value, strayMm: 2 * Math.sqrt(square) + 1e-9 };
}
