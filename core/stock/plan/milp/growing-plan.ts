/** A tube's program as it grows by ways of cutting straight stock, and the best plan over them so far. */

import type { Columns, RunColumn } from '../columns/columns.ts';
import type { Goal, PlanGoals } from '../cut-plan.ts';
import type { MilpModel } from './milp.ts';
import { type PlanModel, planModel } from './plan-model.ts';
import { goalsOfValues } from './read-values.ts';
import type { WeightedGoal } from './weighted-goal.ts';

export class GrowingPlan {
  #columns: Columns;
  #model: PlanModel;
  #values: readonly number[];
  readonly #known = new Set<string>();

  /** Begins with the sticks cut as `first` says, and all else short. */
  constructor(columns: Columns, first: readonly RunColumn[]) {
    this.#columns = { ...columns, sticks: [] };
    this.#model = planModel(this.#columns);
    const wanted = [...columns.sizes.bends, ...columns.sizes.straights].map(({ ids }) => ids.length);
    first.forEach(({ straights }) => {
      for (const size of straights)
        wanted[columns.sizes.bends.length + size] = (wanted[columns.sizes.bends.length + size] ?? 0) - 1;
    });
    this.#values = this.#model.meanings.map(({ kind }) => (kind === 'short' ? (wanted.shift() ?? 0) : 0));
    this.add(first);
    const keys = this.#columns.sticks.map(keyOf);
    const cut = keys.map((key) => first.filter((column) => keyOf(column) === key).length);
    this.#values = [...this.#values.slice(0, this.#values.length - keys.length), ...cut];
  }

  get columns(): Columns {
    return this.#columns;
  }

  get model(): PlanModel {
    return this.#model;
  }

  /** The best plan so far, one value a column of the model. */
  get values(): readonly number[] {
    return this.#values;
  }

  get goals(): PlanGoals {
    return goalsOfValues(this.#model, this.#values);
  }

  /** Adds ways that are not there yet. Returns how many. */
  add(sticks: readonly RunColumn[]): number {
    const fresh = sticks.filter((column) => {
      const key = keyOf(column);
      const isFresh = !this.#known.has(key);
      this.#known.add(key);
      return isFresh;
    });
    if (fresh.length === 0) return 0;
    this.#columns = { ...this.#columns, sticks: [...this.#columns.sticks, ...fresh] };
    this.#model = planModel(this.#columns);
    this.#values = [...this.#values, ...fresh.map(() => 0)];
    return fresh.length;
  }

  /** Takes values as the best plan, if they are one: whole, within every row, and no worse in what is held. */
  accept(values: readonly number[], held: Readonly<Partial<PlanGoals>>): boolean {
    const whole = values.map((value) => Math.round(value) + 0);
    if (!keeps(this.#model, whole, held)) return false;
    this.#values = whole;
    return true;
  }

  /**
   * The program for one goal, with what earlier goals have reached held.
   * @param isOpen which columns may be used; all, when left out
   */
  program({ weights }: WeightedGoal, held: Readonly<Partial<PlanGoals>>, isOpen = (_: number) => true): MilpModel {
    const { columns, costs } = this.#model;
    const { shortage, cost, welds, lost } = costs;
    return {
      columns: columns.map((column, at) => (isOpen(at) ? column : { ...column, high: 0 })),
      rows: heldRows(this.#model, held),
      costs: columns.map(
        (_, at) =>
          weights.shortage * (shortage[at] ?? 0) +
          weights.cost * (cost[at] ?? 0) +
          weights.welds * (welds[at] ?? 0) +
          weights.lost * (lost[at] ?? 0),
      ),
    };
  }
}

function keyOf({ run, straights }: RunColumn): string {
  return `${run}:${straights.toSorted((a, b) => a - b).join(',')}`;
}

function heldRows({ rows, goalRow }: PlanModel, held: Readonly<Partial<PlanGoals>>): MilpModel['rows'] {
  const all = [...rows];
  for (const [name, row] of Object.entries(goalRow) as [Goal, number][]) {
    const reached = held[name];
    if (reached !== undefined) all[row] = { low: Number.NEGATIVE_INFINITY, high: reached };
  }
  return all;
}

function keeps(model: PlanModel, values: readonly number[], held: Readonly<Partial<PlanGoals>>): boolean {
  const rows = heldRows(model, held);
  const sums = new Array<number>(rows.length).fill(0);
  model.columns.forEach(({ entries }, at) => {
    for (const [row, value] of entries) sums[row] = (sums[row] ?? 0) + value * (values[at] ?? 0);
  });
  return rows.every(({ low, high }, row) => (sums[row] ?? 0) >= low && (sums[row] ?? 0) <= high);
}
