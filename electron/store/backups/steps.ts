/** Long work cut into steps, so that it can be done at once or between the calls of the page. */

import { performance } from 'node:perf_hooks';
import { setImmediate as nextTurn } from 'node:timers/promises';

/** Work that may be interrupted wherever it yields. */
export type Steps<Value> = Generator<undefined, Value, undefined>;

/** No call of the page waits longer than this for work that goes on behind it, but for a step that is longer itself. */
const LONGEST_TURN_MS = 5;

export function atOnce<Value>(steps: Steps<Value>): Value {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** Gives way to whatever waits, every few milliseconds. Rejects with what a step throws. */
export async function betweenCalls<Value>(steps: Steps<Value>): Promise<Value> {
  let since = performance.now();
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    if (performance.now() - since < LONGEST_TURN_MS) continue;
    await nextTurn();
    since = performance.now();
  }
}
