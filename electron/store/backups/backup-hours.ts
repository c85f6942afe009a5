/** When backups are made: soon after a start, every hour from then on, and at closing. */

import type { Problem, Result } from '../../../core/index.ts';
import { wordsOf } from '../../output/file-log.ts';

/** Timers as they are used here; handed in, so that ten days need not last ten days. */
export interface Timers {
  readonly set: (act: () => void, afterMs: number) => unknown;
  readonly clear: (timer: unknown) => void;
}

/** They keep no process alive that has nothing else to do. */
export const systemTimers: Timers = {
  set: (act, afterMs) => setTimeout(act, afterMs).unref(),
  clear: (timer) => clearTimeout(timer as NodeJS.Timeout),
};

export const HOUR_MS = 3_600_000;

interface Parts {
  /** Makes a backup if something was entered since the last. */
  readonly backUp: () => Promise<Result<unknown, Problem>>;
  /** How long after the start the first is looked at, so that it does not stand in its way; null: none is ever made. */
  readonly firstAfterMs: number | null;
  readonly timers: Timers;
  /** A backup that could not be made is written down; the next hour tries again. */
  readonly report: (cause: unknown) => void;
}

export function backupHours({ backUp, firstAfterMs, timers, report }: Parts) {
  let timer: unknown = null;
  let isEnding = false;
  async function run(): Promise<void> {
    try {
      const result = await backUp();
      if (!result.ok) report(result.problems);
    } catch (cause) {
      report(wordsOf(cause));
    }
  }
  function runIn(afterMs: number): void {
    timer = timers.set(() => void run().then(() => isEnding || runIn(HOUR_MS)), afterMs);
  }
  return {
    /** From the first time on that it is called. */
    begin(): void {
      if (timer === null && !isEnding && firstAfterMs !== null) runIn(firstAfterMs);
    },
    /** Makes the last one, and ends. */
    async end(): Promise<void> {
      isEnding = true;
      if (timer !== null) timers.clear(timer);
      if (firstAfterMs !== null) await run();
    },
  };
}
