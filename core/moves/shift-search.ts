/** Which few straights to change, and by how much: every set of them in order of size, least cost first. */

import { type Column, leastCost } from './bounded-simplex.ts';
import type { Four, MissWindow } from './miss.ts';
import type { Touch } from './move-cost.ts';
import type { ShiftOption } from './straight-options.ts';

export interface ShiftSearch {
  /** In order of their slots. */
  readonly options: readonly ShiftOption[];
  /** Miss before any of them. */
  readonly miss: Four;
  readonly windows: readonly [MissWindow, MissWindow, MissWindow, MissWindow];
  /** What is touched whatever is chosen here. */
  readonly touched: readonly Touch[];
  readonly mostChanges: number;
  readonly keyOf: (touches: readonly Touch[]) => number;
  /** Sets with a larger key are not looked into; asked anew each time, since it falls as moves are found. */
  readonly keyLimit: () => number;
  readonly shouldStop: () => boolean;
  readonly found: (choice: ShiftChoice) => void;
}

export interface ShiftChoice {
  readonly key: number;
  readonly chosen: readonly ShiftOption[];
  /** Value of each, as the variable counts it. */
  readonly values: readonly number[];
  /** Tube, distance off target and closure in one, as `move-cost.ts` weighs them. */
  readonly cost: number;
}

/** Above any honest cost: pays for leaving a window. */
const OUTSIDE = 1e6;
const OUTSIDE_SMALL_MM = 1e-7;

/**
 * Finds all sets of up to `mostChanges` shifts that put the end and the length into their windows, each with the values of
 * least cost. A set is dropped unseen when its directions cannot cancel the miss even without limits: the part of the
 * miss that is square to them, kept up to date by Gram-Schmidt as the set grows, is then larger than the windows. What
 * remains is settled by linear programming. Exact for the cube of `missWindows`.
 */
export function searchShifts(search: ShiftSearch): void {
  const walk = new Walk(search);
  for (let size = search.touched.length > 0 ? 0 : 1; size <= search.mostChanges; size += 1) {
    if (walk.isOver) return;
    walk.go(size);
  }
}

/** Rank is lost when less than this share of a column is left. */
const SAME_DIRECTION = 1e-9;

class Walk {
  isOver = false;
  private readonly chosen: ShiftOption[] = [];
  private readonly touches: Touch[];
  private readonly scales: Four;
  private readonly squares: (Four | null)[];
  private readonly search: ShiftSearch;
  private steps = 0;

  constructor(search: ShiftSearch) {
    this.search = search;
    this.touches = [...search.touched];
    this.scales = search.windows.map(({ low, high }) => 2 / Math.max(1e-9, high - low)) as unknown as Four;
    this.squares = [];
  }

  go(size: number): void {
    const { windows, miss } = this.search;
    const centred = (i: 0 | 1 | 2 | 3) => (miss[i] - (windows[i].low + windows[i].high) / 2) * this.scales[i];
    this.descend(size, 0, [centred(0), centred(1), centred(2), centred(3)]);
  }

  /** `left` is the part of the miss that is square to all chosen columns, scaled so that windows are 1 wide each way. */
  private descend(size: number, from: number, left: Four): void {
    this.steps += 1;
    if ((this.steps & 255) === 0 && this.search.shouldStop()) this.isOver = true;
    if (this.isOver) return;
    if (size === 0) {
      // Each of four figures within 1 leaves a square length of at most 4.
      if (lengthSquared(left) <= 4 + 1e-9) this.settle();
      return;
    }
    const { options } = this.search;
    const lastSlot = this.chosen.at(-1)?.slot ?? -1;
    for (let i = from; i < options.length; i += 1) {
      const option = options[i] as ShiftOption;
      if (option.slot === lastSlot) continue;
      this.touches.push(option);
      if (this.search.keyOf(this.touches) <= this.search.keyLimit()) this.choose(option, { size, next: i + 1, left });
      this.touches.pop();
    }
  }

  private choose(
    option: ShiftOption,
    { size, next, left }: { readonly size: number; readonly next: number; readonly left: Four },
  ): void {
    const jumped = plus(left, this.square(this.scaled(option.offset)));
    const column = option.column === null ? null : this.scaled(option.column);
    const square = column === null ? null : this.square(column);
    const isNew = column !== null && square !== null && lengthSquared(square) > SAME_DIRECTION * lengthSquared(column);
    const axis = isNew ? unitOf(square) : null;
    this.chosen.push(option);
    this.squares.push(axis);
    this.descend(size - 1, next, axis === null ? jumped : without(jumped, axis));
    this.squares.pop();
    this.chosen.pop();
  }

  private scaled(four: Four): Four {
    const { scales } = this;
    return [four[0] * scales[0], four[1] * scales[1], four[2] * scales[2], four[3] * scales[3]];
  }

  private square(four: Four): Four {
    let left = four;
    for (const axis of this.squares) if (axis !== null) left = without(left, axis);
    return left;
  }

  private settle(): void {
    const { search } = this;
    const key = search.keyOf(this.touches);
    if (key > search.keyLimit()) return;
    const choice = settleShifts(this.chosen, search.miss, search.windows);
    if (choice !== null) search.found({ ...choice, key, chosen: [...this.chosen] });
  }
}

/** The values of least cost for the given shifts; null when none keep to the windows. */
export function settleShifts(
  chosen: readonly ShiftOption[],
  miss: Four,
  windows: readonly [MissWindow, MissWindow, MissWindow, MissWindow],
): { readonly values: readonly number[]; readonly cost: number } | null {
  const columns: Column[] = [];
  let wanted: Four = [-miss[0], -miss[1], -miss[2], -miss[3]];
  let fixedMm = 0;
  for (const { offset, column, downMm, upMm, tubeMm } of chosen) {
    wanted = minus(wanted, offset);
    fixedMm += tubeMm;
    if (column === null) continue;
    columns.push({ rows: column, cost: 1, most: upMm });
    columns.push({ rows: [-column[0], -column[1], -column[2], -column[3]], cost: 0, most: downMm });
  }
  for (const row of [0, 1, 2, 3] as const) columns.push(...windowColumns(row, windows[row]));
  const firstSlack = columns.length;
  for (const row of [0, 1, 2, 3] as const) {
    columns.push({ rows: unitRow(row, 1), cost: OUTSIDE, most: Number.POSITIVE_INFINITY });
    columns.push({ rows: unitRow(row, -1), cost: OUTSIDE, most: Number.POSITIVE_INFINITY });
  }
  const best = leastCost(columns, wanted, firstSlack);
  for (let i = firstSlack; i < columns.length; i += 1) {
    if ((best.values[i] as number) > OUTSIDE_SMALL_MM) return null;
  }
  let at = 0;
  const values = chosen.map(({ column, baseValue }) => {
    if (column === null) return baseValue;
    at += 2;
    return baseValue + (best.values[at - 2] as number) - (best.values[at - 1] as number);
  });
  return { values, cost: best.cost + fixedMm };
}

/** A remaining miss below zero is made up by a positive entry in its row, and the other way round. */
function windowColumns(row: 0 | 1 | 2 | 3, window: MissWindow): readonly Column[] {
  const { low, high, freeLow, freeHigh, slope } = window;
  return [
    { rows: unitRow(row, 1), cost: 0, most: -freeLow },
    { rows: unitRow(row, 1), cost: slope, most: freeLow - low },
    { rows: unitRow(row, -1), cost: 0, most: freeHigh },
    { rows: unitRow(row, -1), cost: slope, most: high - freeHigh },
  ];
}

function unitRow(row: 0 | 1 | 2 | 3, sign: 1 | -1): Four {
  return [row === 0 ? sign : 0, row === 1 ? sign : 0, row === 2 ? sign : 0, row === 3 ? sign : 0];
}

function plus(a: Four, b: Four): Four {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3]];
}

function minus(a: Four, b: Four): Four {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2], a[3] - b[3]];
}

function lengthSquared(a: Four): number {
  return a[0] * a[0] + a[1] * a[1] + a[2] * a[2] + a[3] * a[3];
}

function unitOf(a: Four): Four {
  const by = 1 / Math.sqrt(lengthSquared(a));
  return [a[0] * by, a[1] * by, a[2] * by, a[3] * by];
}

/** `a` less its part along the unit `axis`. */
function without(a: Four, axis: Four): Four {
  const part = a[0] * axis[0] + a[1] * axis[1] + a[2] * axis[2] + a[3] * axis[3];
  return [a[0] - part * axis[0], a[1] - part * axis[1], a[2] - part * axis[2], a[3] - part * axis[3]];
}
