/** Waiting for what a test needs to see, where there is nothing that tells of it. */

import { performance } from 'node:perf_hooks';
import { setTimeout as pause } from 'node:timers/promises';

/** Only there to end what hangs. */
const CEILING_MS = 60_000;

/** Resolves as soon as it is so; throws, and says what it waited for, when it never is. */
export async function until(what: string, isSo: () => boolean | Promise<boolean>): Promise<void> {
  const endsAtMs = performance.now() + CEILING_MS;
  while (!(await isSo())) {
    if (performance.now() > endsAtMs) throw new Error(`waited in vain until ${what}`);
    await pause(2);
  }
}
