/** The exact search for a few pieces, against every assignment and by hand. */

import { describe, expect, test } from 'vitest';
import { checkPlan } from '../../../../core/stock/plan/check-plan.ts';
import type { CutProblem } from '../../../../core/stock/plan/cut-problem.ts';
import { smallPlan } from '../../../../core/stock/plan/exact/small-plan.ts';
import { nameAndLayOut } from '../../../../core/stock/plan/layout/name-pieces.ts';
import { tubeProblems } from '../../../../core/stock/plan/tube-problem.ts';
import { bestOfEveryAssignment } from './every-assignment.ts';
import { randomProblem } from './made-problems.ts';

function planned(problem: CutProblem) {
  const [tube] = tubeProblems(problem);
  if (tube === undefined) throw new Error('no pieces');
  const { columns, chosen } = smallPlan(tube);
  return { ...nameAndLayOut(columns, chosen), goals: chosen.goals };
}

describe('500 random problems of up to 7 pieces and 5 stock rows', () => {
  test.each(Array.from({ length: 20 }, (_, block) => block))(
    'block %i: as good as the best of every assignment',
    (block) => {
      for (let seed = 25 * block + 1; seed <= 25 * block + 25; seed += 1) {
        const problem = randomProblem(seed);
        const plan = planned(problem);
        const best = bestOfEveryAssignment(problem);
        expect(checkPlan(problem, plan), `seed ${seed}`).toEqual([]);
        const { lost, ...goals } = plan.goals;
        const { lostMm, ...bestGoals } = best;
        expect(goals, `seed ${seed}`).toEqual(bestGoals);
        // Each stretch of tube is rounded to a hundredth of a millimetre in a plan's goals.
        expect(Math.abs(lost / 100 - lostMm), `seed ${seed}`).toBeLessThan(0.15);
      }
    },
  );
});
