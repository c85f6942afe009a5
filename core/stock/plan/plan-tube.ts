/** The plan of one tube. */

import type { Chosen } from './chosen.ts';
import type { Columns } from './columns/columns.ts';
import { GOALS, type GoalBound, type PlanGoals } from './cut-plan.ts';
import { SMALL_PIECES, smallPlan } from './exact/small-plan.ts';
import type { TubeProblem } from './tube-problem.ts';

export interface TubePlan {
  readonly columns: Columns;
  readonly chosen: Chosen;
  readonly bounds: readonly GoalBound[];
}

/** Bounds of a plan that was found by looking at all: every goal is its own bound. */
export function provenBounds(goals: PlanGoals): readonly GoalBound[] {
  return GOALS.map((goal) => ({ goal, reached: goals[goal], bound: goals[goal] }));
}

export function isSmall({ bends, straights }: TubeProblem): boolean {
  return bends.length + straights.length <= SMALL_PIECES;
}

export function planSmallTube(problem: TubeProblem): TubePlan {
  const { columns, chosen } = smallPlan(problem);
  return { columns, chosen, bounds: provenBounds(chosen.goals) };
}
