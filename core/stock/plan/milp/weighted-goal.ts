/** Goals as a solver is given them: one sum at a time, in which an earlier goal outweighs all that a later one can come to. */

import { openingCost } from '../chosen.ts';
import type { Columns } from '../columns/columns.ts';
import { type Goal, NO_GOALS, type PlanGoals } from '../cut-plan.ts';

export interface WeightedGoal {
  /** The goals that are settled by it. */
  readonly goals: readonly Goal[];
  readonly weights: PlanGoals;
  /** All sums of whole plans are multiples of this. */
  readonly step: number;
}

/**
 * Shortage and cost together, for a plan that is short of everything costs nothing and says little; then welds; then lost
 * tube. A short piece outweighs all stock that could be opened.
 */
export function weightedGoals({ problem, sizes }: Columns): readonly WeightedGoal[] {
  const rows = [...problem.bendRows, ...problem.straightRows];
  const costs = rows.map(openingCost);
  const pieces = [...sizes.bends, ...sizes.straights].reduce((sum, { ids }) => sum + ids.length, 0);
  const items = rows.reduce((sum, { count }) => sum + count, 0);
  const step = Math.max(1, costs.reduce(commonDivisor, 0));
  const most = Math.max(0, ...costs) * Math.min(pieces, items);
  return [
    { goals: ['shortage', 'cost'], weights: { ...NO_GOALS, shortage: most + step, cost: 1 }, step },
    { goals: ['welds'], weights: { ...NO_GOALS, welds: 1 }, step: 1 },
    { goals: ['lost'], weights: { ...NO_GOALS, lost: 1 }, step: 1 },
  ];
}

export function weighted(goals: PlanGoals, { weights }: WeightedGoal): number {
  return (
    goals.shortage * weights.shortage +
    goals.cost * weights.cost +
    goals.welds * weights.welds +
    goals.lost * weights.lost
  );
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}
