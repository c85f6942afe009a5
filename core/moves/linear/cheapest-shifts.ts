/** How much a chosen set of straights must change by, at the least cost. */

import { type Column, leastCost, type Optimum } from './bounded-simplex.ts';
import { minus, opposite, plus, type Shift } from './shift.ts';
import type { ShiftOption } from './shift-option.ts';
import type { ShiftWindow, ShiftWindows } from './shift-windows.ts';

export interface CheapestShifts {
  /** Value of each shift, as its variable counts it. */
  readonly values: readonly number[];
  readonly cost: number;
}

/** Above any honest cost: pays for leaving a window. */
const OUTSIDE = 1e6;
const OUTSIDE_SMALL_MM = 1e-7;

const ALL_ROWS = [0, 1, 2, 3] as const;
const SLACKS: readonly Column[] = ALL_ROWS.flatMap((row) => [
  { rows: unitRow(row, 1), cost: OUTSIDE, most: Number.POSITIVE_INFINITY },
  { rows: unitRow(row, -1), cost: OUTSIDE, most: Number.POSITIVE_INFINITY },
]);

/** The values of least cost for the given shifts; null when none keep to the windows. */
export function cheapestShifts(
  chosen: readonly ShiftOption[],
  off: Shift,
  windows: ShiftWindows,
): CheapestShifts | null {
  const free = chosen.filter(({ column }) => column !== null);
  if (free.length < 2) return cheapestOne(chosen, free[0] ?? null, { off, windows });
  const columns: Column[] = [];
  let wanted: Shift = opposite(off);
  let fixedMm = 0;
  for (const { offset, column, downMm, upMm, tubeMm } of chosen) {
    wanted = minus(wanted, offset);
    fixedMm += tubeMm;
    if (column === null) continue;
    columns.push({ rows: column, cost: 1, most: upMm });
    columns.push({ rows: opposite(column), cost: 0, most: downMm });
  }
  const best = leastInWindows(columns, wanted, windows);
  if (best === null) return null;
  let at = 0;
  const values = chosen.map(({ column, baseValue }) => {
    if (column === null) return baseValue;
    at += 2;
    return baseValue + (best.values[at - 2] as number) - (best.values[at - 1] as number);
  });
  return { values, cost: best.cost + fixedMm };
}

/** Least cost with what is left off in the windows; null when it cannot be. The given columns come first in the values. */
export function leastInWindows(given: readonly Column[], wanted: Shift, windows: ShiftWindows): Optimum | null {
  const columns = [...given, ...sparesOf(windows)];
  const firstSlack = columns.length - SLACKS.length;
  const best = leastCost(columns, wanted, firstSlack);
  for (let i = firstSlack; i < columns.length; i += 1) {
    if ((best.values[i] as number) > OUTSIDE_SMALL_MM) return null;
  }
  return best;
}

const sparesKnown = new WeakMap<ShiftWindows, readonly Column[]>();

/** The columns for what may be left off, and those that pay for more: the same for all sets of one search, so made once. */
function sparesOf(windows: ShiftWindows): readonly Column[] {
  let spares = sparesKnown.get(windows);
  if (spares === undefined) {
    spares = [...ALL_ROWS.flatMap((row) => windowColumns(row, windows[row])), ...SLACKS];
    sparesKnown.set(windows, spares);
  }
  return spares;
}

/** What is left below zero is made up by a positive entry in its row, and the other way round. */
function windowColumns(row: 0 | 1 | 2 | 3, window: ShiftWindow): readonly Column[] {
  const { low, high, freeLow, freeHigh, slope } = window;
  return [
    { rows: unitRow(row, 1), cost: 0, most: -freeLow },
    { rows: unitRow(row, 1), cost: slope, most: freeLow - low },
    { rows: unitRow(row, -1), cost: 0, most: freeHigh },
    { rows: unitRow(row, -1), cost: slope, most: high - freeHigh },
  ];
}

/** One value at most to choose, so no program is needed: the cost is convex and least at one of its corners. */
function cheapestOne(
  chosen: readonly ShiftOption[],
  free: ShiftOption | null,
  { off, windows }: { readonly off: Shift; readonly windows: ShiftWindows },
): CheapestShifts | null {
  const from = chosen.reduce<Shift>((sum, { offset }) => plus(sum, offset), off);
  const column = free?.column ?? NO_COLUMN;
  let low = -(free?.downMm ?? 0);
  let high = free?.upMm ?? 0;
  const corners = [0];
  for (const row of [0, 1, 2, 3] as const) {
    const { low: least, high: most, freeLow, freeHigh } = windows[row];
    const per = column[row];
    if (Math.abs(per) < SAME_AT_ANY_VALUE) {
      if (from[row] < least - OUTSIDE_SMALL_MM || from[row] > most + OUTSIDE_SMALL_MM) return null;
      continue;
    }
    const ends = [(least - from[row]) / per, (most - from[row]) / per] as const;
    low = Math.max(low, Math.min(...ends));
    high = Math.min(high, Math.max(...ends));
    corners.push((freeLow - from[row]) / per, (freeHigh - from[row]) / per);
  }
  if (low > high + OUTSIDE_SMALL_MM) return null;
  corners.push(low, high);
  let best = { value: 0, cost: Number.POSITIVE_INFINITY };
  for (const corner of corners) {
    const value = Math.max(low, Math.min(high, corner));
    const cost = costOfOne(value, { from, column, windows });
    if (cost < best.cost) best = { value, cost };
  }
  const fixedMm = chosen.reduce((sum, { tubeMm }) => sum + tubeMm, 0);
  const values = chosen.map((option) => option.baseValue + (option === free ? best.value : 0));
  return { values, cost: best.cost + fixedMm };
}

const NO_COLUMN: Shift = [0, 0, 0, 0];
/** A figure that changes by less than this per millimetre is as good as fixed. */
const SAME_AT_ANY_VALUE = 1e-12;

function costOfOne(
  value: number,
  { from, column, windows }: { readonly from: Shift; readonly column: Shift; readonly windows: ShiftWindows },
): number {
  let cost = Math.max(0, value);
  for (const row of [0, 1, 2, 3] as const) {
    const { freeLow, freeHigh, slope } = windows[row];
    const at = from[row] + column[row] * value;
    cost += slope * Math.max(0, freeLow - at, at - freeHigh);
  }
  return cost;
}

function unitRow(row: 0 | 1 | 2 | 3, sign: 1 | -1): Shift {
  return [row === 0 ? sign : 0, row === 1 ? sign : 0, row === 2 ? sign : 0, row === 3 ? sign : 0];
}
