/** A plan by rounding step by step: what the relaxed program uses most is settled, and the rest is solved anew. */

import type { PlanGoals } from '../cut-plan.ts';
import type { GrowingPlan } from './growing-plan.ts';
import type { MilpAnswer, MilpModel } from './milp.ts';
import { PRICE_NOISE, sticksWorth } from './stick-prices.ts';
import type { WeightedGoal } from './weighted-goal.ts';

export interface Diving {
  readonly goal: WeightedGoal;
  readonly held: Readonly<Partial<PlanGoals>>;
  /** Solves without whole numbers; null when that cannot be had, or the time is up. */
  readonly relaxed: (program: MilpModel) => Extract<MilpAnswer, { kind: 'optimal' | 'limit' }> | null;
}

/** Values within this of the largest are settled with it, so that a plan of many bars takes few steps. */
const NEARLY = 0.15;
/** Rounds of adding ways before a step is settled as it stands. */
const ROUNDS = 4;

/**
 * Values of a whole plan, one a column of the program as it has grown by then; null when none came of it. A plan found so
 * is often least where many pieces come from many bars alike (diving with column generation), but nothing says so.
 */
export function dive(plan: GrowingPlan, { goal, held, relaxed }: Diving): readonly number[] | null {
  let settled: readonly number[] = plan.model.columns.map(() => 0);
  for (;;) {
    const answer = grown(plan, settled, { goal, held, relaxed });
    if (answer === null) return null;
    settled = [...settled, ...new Array<number>(plan.model.columns.length - settled.length).fill(0)];
    const most = Math.max(...answer.values.map((value) => Math.min(1, value)));
    const more = answer.values.map((value) => (value >= most - NEARLY ? Math.max(1, Math.floor(value + NEARLY)) : 0));
    if (most < PRICE_NOISE) return settled;
    const next = settledWithin(plan, settled, more);
    if (next === null) return null;
    settled = next;
  }
}

/** Solves what is left, with ways added while they help. */
function grown(plan: GrowingPlan, settled: readonly number[], { goal, held, relaxed }: Diving) {
  for (let round = 0; ; round += 1) {
    const padded = [...settled, ...new Array<number>(plan.model.columns.length - settled.length).fill(0)];
    const program = remaining(plan.program(goal, held), padded);
    const answer = relaxed(program);
    if (answer === null || round === ROUNDS) return answer;
    const { straightSizes } = plan.model.places;
    const counts = plan.columns.sizes.straights.map((_, size) => program.rows[straightSizes + size]?.high ?? 0);
    const { sticks } = sticksWorth(plan.columns, plan.model, {
      goal,
      rowPrices: answer.rowPrices,
      below: -PRICE_NOISE * goal.step,
      limit: 'best',
      counts,
    });
    if (plan.add(sticks) === 0) return answer;
  }
}

/** The program with what is settled taken off its rows. */
function remaining(program: MilpModel, settled: readonly number[]): MilpModel {
  const used = new Float64Array(program.rows.length);
  program.columns.forEach(({ entries }, at) => {
    for (const [row, value] of entries) used[row] = (used[row] ?? 0) + value * (settled[at] ?? 0);
  });
  return {
    ...program,
    rows: program.rows.map(({ low, high }, row) => ({ low: low - (used[row] ?? 0), high: high - (used[row] ?? 0) })),
  };
}

/** Settles as much of `more` as the rows have room for, one use after the other; null when not even one fits. */
function settledWithin(
  plan: GrowingPlan,
  settled: readonly number[],
  more: readonly number[],
): readonly number[] | null {
  const next = [...settled];
  const { rows, columns } = plan.model;
  const used = new Float64Array(rows.length);
  columns.forEach(({ entries }, at) => {
    for (const [row, value] of entries) used[row] = (used[row] ?? 0) + value * (next[at] ?? 0);
  });
  let hasMoved = false;
  more.forEach((times, at) => {
    const entries = columns[at]?.entries ?? [];
    for (let count = 0; count < times; count += 1) {
      if (entries.some(([row, value]) => value > 0 && (used[row] ?? 0) + value > (rows[row]?.high ?? 0))) return;
      for (const [row, value] of entries) used[row] = (used[row] ?? 0) + value;
      next[at] = (next[at] ?? 0) + 1;
      hasMoved = true;
    }
  });
  return hasMoved ? next : null;
}
