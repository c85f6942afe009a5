/** Cut plans as the bridge's calls ask for them: each on a thread of its own, which can be asked how far it is, and stopped. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { Worker } from 'node:worker_threads';
import { type PlanProgress, success, unplanned } from '../../core/index.ts';
import type { RequestOf } from '../bridge/contract.ts';
import type { Answer, Handlers } from '../bridge/dispatcher.ts';
import type { PlanMessage, PlanWork } from './plan-worker.ts';

/** What the largest plan comes to, with room; one that asks for more ends its own thread at most. */
const MEMORY_MIB = 2048;

/** A packaged program keeps the solver beside its archive, for its WebAssembly is read as a file. */
const SOLVER_FROM = import.meta.filename.replace('app.asar', 'app.asar.unpacked');

/**
 * After a thousand calls from WebAssembly into JavaScript the engine puts quicker code in their place, and where threads come and go
 * it has ended the whole process over it (V8 13.6, in `Runtime_TierUpWasmToJSWrapper`). The solver calls out seldom and does as well without.
 */
setFlagsFromString('--wasm-wrapper-tiering-budget=1000000000');

interface Running {
  progress: PlanProgress | null;
  /** Ends the search; the plan asked for is then answered with the best so far. */
  readonly stop: () => void;
}

type PlanCalls = Pick<Handlers, 'planCuts' | 'readCutPlan' | 'stopCutPlan'>;

export function cutPlanner(): PlanCalls & { readonly end: () => void } {
  const running = new Map<string, Running>();
  return {
    planCuts: (request) => planOnThread(request, running),
    readCutPlan: ({ planId }) => success({ progress: running.get(planId)?.progress ?? null }),
    stopCutPlan({ planId }) {
      running.get(planId)?.stop();
      return success({});
    },
    end() {
      for (const { stop } of running.values()) stop();
    },
  };
}

function planOnThread(
  { planId, problem, limitSeconds }: RequestOf<'planCuts'>,
  running: Map<string, Running>,
): Promise<Answer<'planCuts'>> {
  return new Promise((resolve, reject) => {
    const worker = startWorker({ problem, limitMs: 1000 * limitSeconds, resolveFrom: SOLVER_FROM });
    const own: Running = {
      progress: null,
      stop() {
        resolve(success({ plan: { ...(own.progress?.best ?? unplanned(problem)), ended: 'stopped' } }));
        void worker.terminate();
      },
    };
    const end = () => {
      if (running.get(planId) === own) running.delete(planId);
    };
    // A plan asked for again under the same name takes the place of the one before.
    running.get(planId)?.stop();
    running.set(planId, own);
    worker.on('message', (message: PlanMessage) => {
      if (message.kind === 'progress') own.progress = message.progress;
      else {
        end();
        resolve(success({ plan: message.plan }));
      }
    });
    worker.once('error', reject);
    worker.once('exit', (code) => {
      end();
      // Does nothing after an answer.
      reject(new Error(`the thread that plans cuts ended with ${code} and without an answer`));
    });
  });
}

function startWorker(workerData: PlanWork): Worker {
  const options = { workerData, resourceLimits: { maxOldGenerationSizeMb: MEMORY_MIB } };
  if (import.meta.filename.endsWith('.ts')) return new Worker(new URL('./plan-worker.ts', import.meta.url), options);
  // Built, it is a bundle beside this one. Threads cannot start from inside a package's archive, but the text can be read there.
  const built = join(import.meta.dirname, '..', 'planner', 'planner.cjs');
  return new Worker(readFileSync(built, 'utf8'), { ...options, eval: true });
}
