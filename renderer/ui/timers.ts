/** Timers as things that can be handed in, so that tests need not wait for real time. */

export interface Timers {
  readonly set: (act: () => void, afterMs: number) => unknown;
  readonly clear: (timer: unknown) => void;
}

/** Those of the browser. */
export const pageTimers: Timers = {
  set: (act, afterMs) => setTimeout(act, afterMs),
  clear: (timer) => clearTimeout(timer as number),
};
