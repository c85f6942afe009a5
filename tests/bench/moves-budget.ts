/** How far a search for moves overruns its budget, and how soon it hears that it is to stop. */

import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import { type Measure, type RunSize, within } from '../measure.ts';

const BUDGET_MS = 300;
const OVER_GOAL_MS = 50;
const PAUSE_GOAL_MS = 20;
export const MANY_CLRS = 40;

export interface BudgetQuestion {
  readonly runs: number;
  readonly budgetMs: number;
}

export interface BudgetAnswer {
  readonly overMs: number;
  readonly pauseMs: number;
  /** Of the calibration, by the same clock. */
  readonly factor: number;
  readonly words: string;
}

/** The worst of many questions: by how much its answer came later than its budget, and how long it looked on before it asked whether to stop. */
export async function measureBudget(size: RunSize): Promise<readonly Measure[]> {
  const question: BudgetQuestion = { runs: size === 'long' ? 1000 : 12, budgetMs: BUDGET_MS };
  const worker = new Worker(new URL('./moves-budget-worker.ts', import.meta.url), { workerData: question });
  const [answer] = (await once(worker, 'message')) as [BudgetAnswer];
  const { overMs, pauseMs, factor, words } = answer;
  const what = `${question.runs} questions of 24 planned pieces and ${MANY_CLRS} CLRs (${words})`;
  return [
    within(OVER_GOAL_MS * factor, {
      id: 'P4d',
      what: `worst answer after a budget of ${BUDGET_MS} ms, ${what}`,
      value: overMs,
    }),
    within(PAUSE_GOAL_MS * factor, { id: 'P4e', what: `longest until a stop is heard, ${what}`, value: pauseMs }),
  ];
}
