/** What a session works with: the host, chance, clocks and frames; and where the page has them from. */

import type { HostBridge } from '../../electron/bridge/contract.ts';
import type { AfterPaint, Timers } from './step-queue.ts';

export interface SessionParts {
  readonly bridge: HostBridge;
  /** 0 up to 1, as `Math.random`; from the platform's strong source in the page. */
  readonly random: () => number;
  readonly timers: Timers;
  /** Left out: steps are sent at once, without waiting for the frame that shows them. */
  readonly afterPaint?: AfterPaint;
}

/** A frame that takes longer is not waited for. */
const LATEST_SEND_MS = 25;

/** Timers and randomness of the browser, for the page. */
export const pageParts: Omit<SessionParts, 'bridge'> = {
  random: () => (crypto.getRandomValues(new Uint32Array(1))[0] ?? 0) / 2 ** 32,
  timers: {
    set: (act, afterMs) => setTimeout(act, afterMs),
    clear: (timer) => clearTimeout(timer as number),
  },
  afterPaint: (act) => {
    // Pages that are not seen draw no frames.
    if (document.visibilityState !== 'visible') return act();
    let isDone = false;
    const once = () => {
      if (!isDone) act();
      isDone = true;
    };
    requestAnimationFrame(() => setTimeout(once));
    setTimeout(once, LATEST_SEND_MS);
  },
};
