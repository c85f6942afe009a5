/** What a session works with: the host, chance, clocks and frames; and where the page has them from. */

import type { HostBridge } from '../../electron/bridge/contract.ts';
import { afterPaint } from '../ui/after-paint.ts';
import { secureRandom } from '../ui/random-id.ts';
import { pageTimers, type Timers } from '../ui/timers.ts';
import type { AfterPaint } from './step-queue.ts';

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

/** What the page's browser gives. */
export const pageParts: Omit<SessionParts, 'bridge'> = {
  random: secureRandom,
  timers: pageTimers,
  afterPaint: (act) => afterPaint(act, LATEST_SEND_MS),
};
