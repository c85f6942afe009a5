/** How fast the cut plan of a whole header is made and proven, and how much faster than its program given whole to the solver. */

import { createRequire } from 'node:module';
import { performance } from 'node:perf_hooks';
import { columnsOf } from '../../core/stock/plan/columns/columns.ts';
import { isProvenLeast } from '../../core/stock/plan/cut-plan.ts';
import { planCuts } from '../../core/stock/plan/plan-cuts.ts';
import { tubeProblems } from '../../core/stock/plan/tube-problem.ts';
import { highsMilp } from '../../electron/solver/highs-milp.ts';
import { headerProblem } from '../core/stock/plan/made-headers.ts';
import { wholeProgram } from '../core/stock/plan/whole-program.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { calibrate } from './calibration.ts';

const SIZE = { primaries: 8, pieces: 20 } as const;
const GOAL_MS = 1000;
/** Long enough for nearly all; a program that is not solved by then counts as so long. */
const LIMIT_S = 20;
/** Few problems have so many ways of cutting that the program cannot be written down whole; those are left out of the ratio. */
const MOST_WAYS = 20_000;

/** Medians over header problems of 20 pieces for 8 primaries and 30 rows of stock, each with goals in order. */
export async function measureCutPlan(size: RunSize): Promise<readonly Measure[]> {
  const solveMilp = highsMilp(await createRequire(import.meta.url)('highs')());
  const now = () => performance.now();
  const runs = size === 'long' ? 25 : 7;
  planCuts(headerProblem(1000, SIZE), { solveMilp, now, limitMs: 1000 * LIMIT_S });
  const samplesMs: number[] = [];
  const ratios: number[] = [];
  let proven = 0;
  for (let seed = 1; seed <= runs; seed += 1) {
    const problem = headerProblem(seed, SIZE);
    const startMs = now();
    const plan = planCuts(problem, { solveMilp, now, limitMs: 1000 * LIMIT_S });
    const ownMs = now() - startMs;
    samplesMs.push(ownMs);
    if (isProvenLeast(plan)) proven += 1;
    if (ratios.length >= 5) continue;
    const [tube] = tubeProblems(problem);
    if (tube === undefined) continue;
    const columns = columnsOf(tube, { isApart: false, limit: MOST_WAYS, listsSticks: true });
    if (!columns.isComplete) continue;
    const wholeStartMs = now();
    wholeProgram(columns, solveMilp, LIMIT_S);
    ratios.push((now() - wholeStartMs) / ownMs);
  }
  const { factor, words } = calibrate();
  const value = quantile(samplesMs, 0.5);
  const ratio = quantile(ratios, 0.5);
  const what = `cut plan of ${SIZE.pieces} pieces of 8 primaries from 30 stock rows, ${proven} of ${runs} proven least (${words}), median`;
  return [
    {
      id: 'P5',
      what,
      value,
      unit: 'ms',
      goal: `< ${(GOAL_MS * factor).toFixed(0)}`,
      ok: value < GOAL_MS * factor && 2 * proven > runs,
    },
    {
      id: 'P5w',
      what: `time of the program given whole to HiGHS, ${LIMIT_S} s a goal at most, over own time, median of ${ratios.length}`,
      value: ratio,
      unit: 'times',
      goal: '> 1',
      ok: ratio > 1,
    },
  ];
}
