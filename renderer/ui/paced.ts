/** Passing on a text that changes often, no more than once in a while. */

import type { Timers } from './timers.ts';

interface PacedParts {
  /** Least time between two texts passed on. */
  readonly gapMs: number;
  /** Any clock that does not go back, in ms. */
  readonly now: () => number;
  readonly timers: Timers;
  readonly say: (text: string) => void;
}

export interface Paced {
  /** Passed on at once when the last one is long enough ago; else the latest of those given is, once it is. */
  readonly give: (text: string) => void;
  /** Passes nothing on any more. */
  readonly stop: () => void;
}

export function paced({ gapMs, now, timers, say }: PacedParts): Paced {
  let saidAtMs = Number.NEGATIVE_INFINITY;
  let said: string | null = null;
  let latest = '';
  let timer: unknown = null;
  const pass = () => {
    timer = null;
    if (latest === said) return;
    saidAtMs = now();
    said = latest;
    say(latest);
  };
  return {
    give(text) {
      latest = text;
      if (timer !== null) return;
      const waitMs = saidAtMs + gapMs - now();
      if (waitMs <= 0) pass();
      else timer = timers.set(pass, waitMs);
    },
    stop() {
      if (timer !== null) timers.clear(timer);
      timer = null;
    },
  };
}
