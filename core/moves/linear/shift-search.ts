/** Which few straights to change, and by how much: every set of them in order of size, least cost first. */

import type { CostTally, Touch } from '../ranking/cost-tally.ts';
import type { Column } from './bounded-simplex.ts';
import { leastInWindows } from './cheapest-shifts.ts';
import { minus, opposite, type Shift } from './shift.ts';
import type { ShiftOption } from './shift-option.ts';
import { middleOf, type ShiftWindows, scalesOf } from './shift-windows.ts';
import { SquareParts } from './square-parts.ts';
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
 * Pauses, by yielding, every few lists of sets that differ in their last shift only: some 100 microseconds.
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

const LISTS_IN_SLICE = 8;

/** Sets one after another, depth first. */
class Walk {
  private readonly chosen: ShiftOption[] = [];
  private readonly parts: SquareParts;
  private readonly search: ShiftSearch;
  /** How many options from each place on have no value to choose. */
  private readonly fixedFrom: Uint16Array;
  /** Sets that work; more changes on top of them are no other move. */
  private readonly working: ShiftChoice[] = [];
  private columns = 0;
  private lists = 0;

  constructor(search: ShiftSearch) {
    const { options, windows, off, mostChanges } = search;
    this.search = search;
    this.fixedFrom = new Uint16Array(options.length + 1);
    for (let i = options.length - 1; i >= 0; i -= 1) {
      this.fixedFrom[i] = (this.fixedFrom[i + 1] as number) + (options[i]?.column === null ? 1 : 0);
    }
    this.parts = new SquareParts(options, scalesOf(windows), minus(off, middleOf(windows)), mostChanges);
  }

  *go(size: number): Generator<void, void> {
    if (size === 0 && this.parts.isWithin(0)) this.settle();
    if (size === 1) this.last(0);
    if (size > 1) yield* this.descend(size, 0);
  }

  private *descend(size: number, from: number): Generator<void, void> {
    const { tally, options, keyLimit } = this.search;
    const depth = this.chosen.length;
    for (let i = from; i < this.until() && this.hasRoomFor(size, i); i += 1) {
      const option = options[i] as ShiftOption;
      if (!this.isOpenTo(option)) continue;
      tally.push(option);
      if (tally.key <= keyLimit()) {
        this.parts.choose(depth, i, i + 1);
        this.take(option);
        if (size > 2) yield* this.descend(size - 1, i + 1);
        else this.last(i + 1);
        this.drop(option);
      }
      tally.pop(option);
      this.lists += 1;
      if (size === 2 && this.lists % LISTS_IN_SLICE === 0) yield;
    }
  }

  /** The last shift of a set, in a plain loop: most of the time goes here. */
  private last(from: number): void {
    const { tally, options, keyLimit } = this.search;
    const depth = this.chosen.length;
    const until = this.until();
    for (let i = from; i < until; i += 1) {
      if (!this.parts.mayFinish(depth, i)) continue;
      const option = options[i] as ShiftOption;
      if (!this.isOpenTo(option)) continue;
      tally.push(option);
      if (tally.key <= keyLimit()) {
        this.take(option);
        this.settle();
        this.drop(option);
      }
      tally.pop(option);
    }
  }

  private until(): number {
    return this.chosen.length === 0 ? this.search.leads : this.search.options.length;
  }

  /** Whether so many more can be chosen from this place on without more values than an answer needs. */
  private hasRoomFor(size: number, from: number): boolean {
    return size - (this.fixedFrom[from] as number) <= MOST_COLUMNS - this.columns;
  }

  private isOpenTo({ slot, column }: ShiftOption): boolean {
    if (column !== null && this.columns === MOST_COLUMNS) return false;
    for (let i = 0; i < this.chosen.length; i += 1) if (this.chosen[i]?.slot === slot) return false;
    return true;
  }

  private take(option: ShiftOption): void {
    this.chosen.push(option);
    if (option.column !== null) this.columns += 1;
  }

  private drop({ column }: ShiftOption): void {
    this.chosen.pop();
    if (column !== null) this.columns -= 1;
  }

  private settle(): void {
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
