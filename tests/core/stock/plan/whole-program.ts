/** The program of a tube with every way of cutting written down, given to a solver goal by goal: what the search is measured against. */

import type { Columns } from '../../../../core/stock/plan/columns/columns.ts';
import { GOALS, type PlanGoals } from '../../../../core/stock/plan/cut-plan.ts';
import type { SolveMilp } from '../../../../core/stock/plan/milp/milp.ts';
import { planModel } from '../../../../core/stock/plan/milp/plan-model.ts';
import { goalsOfValues } from '../../../../core/stock/plan/milp/read-values.ts';

/** @returns the goals reached, each within the time given it; null when the solver had no answer */
export function wholeProgram(columns: Columns, solveMilp: SolveMilp, limitS: number): PlanGoals | null {
  const model = planModel(columns);
  const rows = [...model.rows];
  let goals: PlanGoals | null = null;
  for (const goal of GOALS) {
    const program = { columns: model.columns, rows, costs: model.costs[goal] };
    const answer = solveMilp(program, { timeLimitS: limitS, start: null, isWhole: true });
    if (answer.kind !== 'optimal' && answer.kind !== 'limit') return null;
    goals = goalsOfValues(model, answer.values);
    rows[model.goalRow[goal]] = { low: Number.NEGATIVE_INFINITY, high: goals[goal] };
  }
  return goals;
}
