/** A thread that makes one cut plan with HiGHS, tells how far it is, answers and ends. */

import { createRequire } from 'node:module';
import { performance } from 'node:perf_hooks';
import { parentPort, workerData } from 'node:worker_threads';
import type { Highs } from 'highs';
import { type CutPlan, type CutProblem, type PlanProgress, planCuts, type SolveMilp } from '../../core/index.ts';
import { highsMilp } from './highs-milp.ts';

export interface PlanWork {
  readonly problem: CutProblem;
  readonly limitMs: number;
  /** Where the solver's package stands; a bundle cannot be found from by its own place. */
  readonly resolveFrom: string;
}

export type PlanMessage =
  | { readonly kind: 'progress'; readonly progress: PlanProgress }
  | { readonly kind: 'plan'; readonly plan: CutPlan };

/** Null when the solver cannot be loaded here: plans are then made without it. */
async function loadSolver(resolveFrom: string): Promise<SolveMilp | null> {
  try {
    const loadHighs = createRequire(resolveFrom)('highs') as () => Promise<Highs>;
    return highsMilp(await loadHighs());
  } catch (cause) {
    console.error('The solver could not be loaded; plans are made without it.', cause);
    return null;
  }
}

async function work({ problem, limitMs, resolveFrom }: PlanWork): Promise<void> {
  const tell = (message: PlanMessage) => parentPort?.postMessage(message);
  const solveMilp = await loadSolver(resolveFrom);
  const report = (progress: PlanProgress) => tell({ kind: 'progress', progress });
  tell({ kind: 'plan', plan: planCuts(problem, { solveMilp, now: () => performance.now(), limitMs, report }) });
}

// What is thrown ends the thread, and whoever started it hears of it.
void work(workerData as PlanWork);
