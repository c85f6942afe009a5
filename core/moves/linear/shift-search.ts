/** Which few straights to change, and by how much: every set of them in order of size, least cost first. */

import type { Column } from './bounded-simplex.ts';
import { lengthSquared, minus, plus, product, scaledBy, unitOf, without } from './shift.ts';
import type { Four } from './shift-windows.ts';
import type { CostTally, Touch } from '../ranking/move-cost.ts';
import { type FourWindows, leastInWindows, settleShifts } from './cheapest-shifts.ts';
import type { ShiftOption } from './shift-options.ts';

export interface ShiftSearch {
  /** Those of one slot next to each other. */
  readonly options: readonly ShiftOption[];
  /** Every set holds one of the first so many options. */
  readonly leads: number;
  /** Miss before any of them. */
  readonly miss: Four;
  readonly windows: FourWindows;
  /** What is touched whatever is chosen here. */
  readonly touched: readonly Touch[];
  readonly mostChanges: number;
  readonly tally: CostTally;
  /** Sets with a larger key are not looked into; asked anew each time, since it falls as moves are found. */
  readonly keyLimit: () => number;
  readonly shouldStop: () => boolean;
  /** True when the choice is good as it is, so that nothing need be added to it. */
  readonly found: (choice: ShiftChoice) => boolean;
}

export interface ShiftChoice {
  readonly key: number;
  readonly chosen: readonly ShiftOption[];
  /** Value of each, as the variable counts it. */
  readonly values: readonly number[];
  /** Tube, distance off target and closure in one, as `move-cost.ts` weighs them. */
  readonly cost: number;
}

/**
 * Finds all sets of up to `mostChanges` shifts that put the end and the length into their windows, each with the values of
 * least cost. A set is dropped unseen when its directions cannot cancel the miss even without limits: the part of the
 * miss that is square to them, kept up to date by Gram-Schmidt as the set grows, is then larger than the windows. What
 * remains is settled by linear programming. Exact for the cube of `missWindows`.
 */
export function searchShifts(search: ShiftSearch): void {
  if (search.mostChanges > 2 && isBeyondAll(search)) return;
  const { touched, tally } = search;
  const walk = new Walk(search);
  for (const touch of touched) tally.push(touch);
  for (let size = touched.length > 0 ? 0 : 1; size <= search.mostChanges && !walk.isOver; size += 1) walk.go(size);
  for (const touch of [...touched].reverse()) tally.pop(touch);
}

/** Whether even all straights together, each at any length from zero on, cannot do it. */
function isBeyondAll({ options, miss, windows }: ShiftSearch): boolean {
  const columns: Column[] = [];
  for (const { variable, column } of options) {
    if (variable.screw.lengthShiftMm !== 0 && variable.kind !== 'takeOut') return false;
    if (variable.kind === 'takeOut') {
      if (variable.screw.lengthShiftMm !== -variable.present) return false;
    } else if (column !== null) {
      columns.push({ rows: column, cost: 1, most: MOST_RELAXED_MM });
      columns.push({ rows: scaledBy(column, [-1, -1, -1, -1]), cost: 0, most: variable.present });
    }
  }
  return leastInWindows(columns, scaledBy(miss, [-1, -1, -1, -1]), windows) === null;
}

const MOST_RELAXED_MM = 1e5;

/** In space with a length to meet, four values are as many as an answer needs; others can only be taken out. */
const MOST_COLUMNS = 4;

/** Rank is lost when less than this share of a column is left. */
const SAME_DIRECTION = 1e-22;

class Walk {
  isOver = false;
  private readonly chosen: ShiftOption[] = [];
  private readonly scales: Four;
  private readonly squares: (Four | null)[];
  private readonly search: ShiftSearch;
  /** Sets that work; more changes on top of them are no other move. */
  private readonly working: ShiftChoice[] = [];
  private steps = 0;
  private columns = 0;

  constructor(search: ShiftSearch) {
    this.search = search;
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
    const { options, tally } = this.search;
    const lastSlot = this.chosen.at(-1)?.slot ?? -1;
    const until = this.chosen.length === 0 ? this.search.leads : options.length;
    for (let i = from; i < until; i += 1) {
      const option = options[i] as ShiftOption;
      if (option.slot === lastSlot || (option.column !== null && this.columns === MOST_COLUMNS)) continue;
      tally.push(option);
      if (tally.key <= this.search.keyLimit()) this.choose(option, { size, next: i + 1, left });
      tally.pop(option);
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
    if (column !== null) this.columns += 1;
    this.descend(size - 1, next, axis === null ? jumped : without(jumped, axis));
    if (column !== null) this.columns -= 1;
    this.squares.pop();
    this.chosen.pop();
  }

  private scaled(four: Four): Four {
    return scaledBy(four, this.scales);
  }

  private square(four: Four): Four {
    let left = four;
    for (const axis of this.squares) if (axis !== null) left = without(left, axis);
    return left;
  }

  private settle(): void {
    const { search } = this;
    const { key } = search.tally;
    if (key > search.keyLimit()) return;
    if (this.working.some((set) => set.key < key && set.chosen.every((option) => this.chosen.includes(option)))) return;
    if (!mayFit(this.chosen, search)) return;
    const choice = settleShifts(this.chosen, search.miss, search.windows);
    if (choice === null) return;
    const whole = { ...choice, key, chosen: [...this.chosen] };
    if (search.found(whole)) this.working.push(whole);
  }
}

/**
 * Whether values within limits may exist, by the least squares answer and how far the windows let it stray. Says yes when
 * the columns depend on each other, since then nothing follows.
 */
function mayFit(chosen: readonly ShiftOption[], { miss, windows }: ShiftSearch): boolean {
  const scales = windows.map(({ low, high }) => 2 / Math.max(1e-9, high - low)) as unknown as Four;
  let wanted = scaledBy(
    minus(
      windows.map(({ low, high }) => (low + high) / 2) as unknown as Four,
      chosen.reduce<Four>((sum, { offset }) => plus(sum, offset), miss),
    ),
    scales,
  );
  const free = chosen.filter(({ column }) => column !== null);
  const axes: Four[] = [];
  const upper: number[][] = [];
  const parts: number[] = [];
  for (const { column } of free) {
    let left = scaledBy(column as Four, scales);
    const entries = axes.map((axis) => {
      const entry = product(axis, left);
      left = without(left, axis);
      return entry;
    });
    const size = Math.sqrt(lengthSquared(left));
    if (size < 1e-6) return true;
    const axis = unitOf(left);
    axes.push(axis);
    upper.push([...entries, size]);
    parts.push(product(axis, wanted));
    wanted = without(wanted, axis);
  }
  return free.every((option, i) => isWithinReach(option, i, { upper, parts }));
}

/** Row i of the inverse of the upper triangle (stored by columns), from the bottom up. */
function isWithinReach(
  { downMm, upMm }: ShiftOption,
  i: number,
  { upper, parts }: { readonly upper: readonly (readonly number[])[]; readonly parts: readonly number[] },
): boolean {
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
  // Each of four scaled figures may be off by 1, so the answer by twice the length of the row.
  const reach = 2 * Math.sqrt(square) + 1e-9;
  return value >= -downMm - reach && value <= upMm + reach;
}
