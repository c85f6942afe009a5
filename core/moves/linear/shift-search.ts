/** Which few straights to change, and by how much: every set of them in order of size, least cost first. */

import type { CostTally, Touch } from '../ranking/cost-tally.ts';
import type { Column } from './bounded-simplex.ts';
import { leastInWindows } from './cheapest-shifts.ts';
import { lengthSquared, minus, opposite, plus, type Shift, scaledBy, unitOf, without } from './shift.ts';
import type { ShiftOption } from './shift-option.ts';
import { middleOf, type ShiftWindows, scalesOf } from './shift-windows.ts';
import { type SettledSet, settleSet } from './ways-of-set.ts';

export interface ShiftSearch {
  /** In any order, but with what is taken out first: the price of a set then only rises as it grows. */
  readonly options: readonly ShiftOption[];
  /** Every set holds one of the first so many options. */
  readonly leads: number;
  /** How far off the end is before any of them. */
  readonly off: Shift;
  readonly windows: ShiftWindows;
  /** What is touched whatever is chosen here. */
  readonly touched: readonly Touch[];
  readonly mostChanges: number;
  readonly tally: CostTally;
  /** For the price of a set as it is carried out. */
  readonly pricer: CostTally;
  /** Sets with a larger key are not looked into; asked anew each time, since it falls as moves are found. */
  readonly keyLimit: () => number;
  /** True when the choice is good as it is, so that nothing need be added to it. */
  readonly found: (choice: ShiftChoice) => boolean;
}

export interface ShiftChoice extends SettledSet {
  readonly chosen: readonly ShiftOption[];
}

/**
 * Finds all sets of up to `mostChanges` shifts that put the end and the length into their windows, each with the values of
 * least cost. A set is dropped unseen when its directions cannot make up for what is off even without limits: the part of
 * it that is square to them, kept up to date by Gram-Schmidt as the set grows, is then larger than the windows. What
 * remains is settled by linear programming. Exact for the cube of `shiftWindows`.
 *
 * Pauses, by yielding, at least once for every list of sets that differ in their last shift only: some 100 microseconds.
 */
export function* searchShifts(search: ShiftSearch): Generator<void, void> {
  if (search.mostChanges > 2 && isBeyondAll(search)) return;
  const { touched, tally } = search;
  const walk = new Walk(search);
  for (let size = touched.length > 0 ? 0 : 1; size <= search.mostChanges; size += 1) {
    for (const touch of touched) tally.push(touch);
    yield* walk.go(size);
    for (const touch of [...touched].reverse()) tally.pop(touch);
  }
}

/** Whether even all straights together, each at any length from zero on, cannot do it. */
function isBeyondAll({ options, off, windows }: ShiftSearch): boolean {
  const columns: Column[] = [];
  for (const { variable, column } of options) {
    if (variable.screw.lengthShiftMm !== 0 && variable.kind !== 'takeOut') return false;
    if (variable.kind === 'takeOut') {
      if (variable.screw.lengthShiftMm !== -variable.present) return false;
    } else if (column !== null) {
      columns.push({ rows: column, cost: 1, most: MOST_RELAXED_MM });
      columns.push({ rows: opposite(column), cost: 0, most: variable.present });
    }
  }
  return leastInWindows(columns, opposite(off), windows) === null;
}

const MOST_RELAXED_MM = 1e5;

/** In space with a length to meet, four values are as many as an answer needs; others can only be taken out. */
const MOST_COLUMNS = 4;

/** Two columns point the same way when less than this share of one's square length is left beside the other. */
const SAME_DIRECTION = 1e-22;

/** Sets one after another, depth first, with what is square to the shifts chosen so far. */
class Walk {
  private readonly chosen: ShiftOption[] = [];
  private readonly scales: Shift;
  private readonly squares: (Shift | null)[] = [];
  private readonly search: ShiftSearch;
  /** Sets that work; more changes on top of them are no other move. */
  private readonly working: ShiftChoice[] = [];
  private columns = 0;

  constructor(search: ShiftSearch) {
    this.search = search;
    this.scales = scalesOf(search.windows);
  }

  *go(size: number): Generator<void, void> {
    const { windows, off } = this.search;
    yield* this.descend(size, 0, scaledBy(minus(off, middleOf(windows)), this.scales));
  }

  /** `left` is the part of what is off that is square to all chosen columns, scaled so that windows are 1 wide to each side. */
  private *descend(size: number, from: number, left: Shift): Generator<void, void> {
    if (size <= 1) {
      if (size === 0) this.settle(left);
      else this.last(from, left);
      yield;
      return;
    }
    const { tally } = this.search;
    for (let i = from; i < this.until(); i += 1) {
      const option = this.search.options[i] as ShiftOption;
      if (!this.isOpenTo(option)) continue;
      tally.push(option);
      if (tally.key <= this.search.keyLimit()) {
        const next = this.choose(option, left);
        yield* this.descend(size - 1, i + 1, next);
        this.drop(option);
      }
      tally.pop(option);
    }
  }

  /** The last shift of a set, in a plain loop: most of the time goes here. */
  private last(from: number, left: Shift): void {
    const { tally } = this.search;
    for (let i = from; i < this.until(); i += 1) {
      const option = this.search.options[i] as ShiftOption;
      if (!this.isOpenTo(option)) continue;
      tally.push(option);
      if (tally.key <= this.search.keyLimit()) {
        this.settle(this.choose(option, left));
        this.drop(option);
      }
      tally.pop(option);
    }
  }

  private until(): number {
    return this.chosen.length === 0 ? this.search.leads : this.search.options.length;
  }

  private isOpenTo({ slot, column }: ShiftOption): boolean {
    const isTaken = this.chosen.some((other) => other.slot === slot);
    return !isTaken && (column === null || this.columns < MOST_COLUMNS);
  }

  private choose(option: ShiftOption, left: Shift): Shift {
    const jumped = plus(left, this.square(scaledBy(option.offset, this.scales)));
    const column = option.column === null ? null : scaledBy(option.column, this.scales);
    const square = column === null ? null : this.square(column);
    const isNew = column !== null && square !== null && lengthSquared(square) > SAME_DIRECTION * lengthSquared(column);
    const axis = isNew ? unitOf(square) : null;
    this.chosen.push(option);
    this.squares.push(axis);
    if (column !== null) this.columns += 1;
    return axis === null ? jumped : without(jumped, axis);
  }

  private drop({ column }: ShiftOption): void {
    if (column !== null) this.columns -= 1;
    this.squares.pop();
    this.chosen.pop();
  }

  private square(shift: Shift): Shift {
    let left = shift;
    for (const axis of this.squares) if (axis !== null) left = without(left, axis);
    return left;
  }

  private settle(left: Shift): void {
    // Each of four figures within 1 leaves a square length of at most 4.
    if (lengthSquared(left) > 4 + 1e-9) return;
    const { search } = this;
    const { key } = search.tally;
    if (key > search.keyLimit()) return;
    if (this.working.some((set) => set.key < key && set.chosen.every((option) => this.chosen.includes(option)))) return;
    const settled = settleSet({ ...search, chosen: this.chosen, keyLimit: search.keyLimit() });
    if (settled === null) return;
    const whole = { ...settled, chosen: [...this.chosen] };
    if (search.found(whole)) this.working.push(whole);
  }
}
