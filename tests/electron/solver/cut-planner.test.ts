/** Cut plans on their threads: answered, asked about, stopped, and made without the solver where it cannot be loaded. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { afterAll, describe, expect, test } from 'vitest';
import { checkPlan } from '../../../core/stock/plan/check-plan.ts';
import { type CutPlan, isProvenLeast } from '../../../core/stock/plan/cut-plan.ts';
import type { CutProblem } from '../../../core/stock/plan/cut-problem.ts';
import type { RequestOf } from '../../../electron/bridge/contract.ts';
import { contract } from '../../../electron/bridge/contract.ts';
import { bundleFile } from '../../../electron/build/bundles.ts';
import { cutPlanner } from '../../../electron/solver/cut-planner.ts';
import type { PlanMessage } from '../../../electron/solver/plan-worker.ts';
import { headerProblem } from '../../core/stock/plan/made-headers.ts';
import { ROOT } from '../../source-files.ts';
import { temporaryFolder } from '../../temporary-folder.ts';
import { until } from '../../until.ts';

const planner = cutPlanner();
afterAll(() => planner.end());

/** The request as it arrives: read by the contract. */
function requested(planId: string, seed: number, pieces: number): RequestOf<'planCuts'> {
  const problem = headerProblem(seed, { primaries: 8, pieces });
  return contract.planCuts.request.parse({ planId, problem, limitSeconds: 60 });
}

describe('a plan that is asked for', () => {
  test('is made with the solver, proven, and of the shape of the contract', async () => {
    const request = requested('three', 3, 20);
    const answer = await planner.planCuts(request);
    if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
    const { plan } = contract.planCuts.response.parse(answer.value);
    expect(checkPlan(request.problem, plan)).toEqual([]);
    expect(isProvenLeast(plan)).toBe(true);
    expect(await planner.readCutPlan({ planId: 'three' })).toEqual({ ok: true, value: { progress: null } });
  });

  test('can be stopped, and is then the best so far and said to be that', async () => {
    const request = requested('long', 5, 160);
    const asked = planner.planCuts(request);
    await planner.stopCutPlan({ planId: 'long' });
    const answer = await asked;
    if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
    expect(answer.value.plan.ended).toBe('stopped');
    expect(isProvenLeast(answer.value.plan)).toBe(false);
    expect(checkPlan(request.problem, answer.value.plan)).toEqual([]);
  });

  test('proves nothing when it is stopped before anything is looked at, however few the pieces', async () => {
    const asked = planner.planCuts(requested('few', 2, 5));
    await planner.stopCutPlan({ planId: 'few' });
    const answer = await asked;
    if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
    expect(answer.value.plan).toMatchObject({ ended: 'stopped', goals: { shortage: 5 } });
    expect(isProvenLeast(answer.value.plan)).toBe(false);
  });

  test('tells how far it is', async () => {
    const request = requested('told', 1, 60);
    const asked = planner.planCuts(request);
    const told = async () => {
      const answer = await planner.readCutPlan({ planId: 'told' });
      return answer.ok ? answer.value.progress : null;
    };
    let progress = await told();
    await until('something is told of the plan', async () => {
      progress ??= await told();
      return progress !== null;
    });
    await planner.stopCutPlan({ planId: 'told' });
    await asked;
    expect(progress).toMatchObject({ tubes: 1 });
    expect(
      checkPlan(
        request.problem,
        progress?.best ?? { opened: [], short: [], goals: { shortage: 0, cost: 0, welds: 0, lost: 0 } },
      ),
    ).toEqual([]);
  });
});

/** Runs the built thread and gives the plan that it ends with. */
async function builtPlan(problem: CutProblem, resolveFrom: string): Promise<CutPlan> {
  const workerData = { problem, limitMs: 60_000, resolveFrom };
  const worker = new Worker(readFileSync(bundleFile(ROOT, 'planner'), 'utf8'), {
    workerData,
    eval: true,
    stderr: true,
  });
  return new Promise((resolve, reject) => {
    worker.on('message', (message: PlanMessage) => {
      if (message.kind === 'plan') resolve(message.plan);
    });
    worker.once('error', reject);
  });
}

test('the built thread, which a package starts from its text, plans with the solver', async () => {
  const { problem } = requested('built', 3, 20);
  const plan = await builtPlan(problem, import.meta.filename);
  expect(checkPlan(problem, plan)).toEqual([]);
  expect(isProvenLeast(plan)).toBe(true);
});

test('where the solver cannot be loaded, twenty pieces are planned without it, and not called least', async () => {
  const { problem } = requested('without', 3, 20);
  const plan = await builtPlan(problem, join(temporaryFolder('no-solver'), 'here.js'));
  expect(checkPlan(problem, plan)).toEqual([]);
  expect(isProvenLeast(plan)).toBe(false);
});

test('a request with a piece that is there twice, or a kerf below zero, is refused', () => {
  const { planId, problem, limitSeconds } = requested('twice', 3, 20);
  const twice = { ...problem, pieces: [...problem.pieces, ...problem.pieces.slice(0, 1)] };
  const dull = { ...problem, saw: { ...problem.saw, kerfMm: -1 } };
  for (const wrong of [twice, dull]) {
    expect(contract.planCuts.request.safeParse({ planId, problem: wrong, limitSeconds }).success).toBe(false);
  }
});
