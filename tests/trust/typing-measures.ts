/** The row of the trust table that needs a browser: nothing typed is lost. */

import type { Measure, MeasureRun, RunSize } from '../measure.ts';
import { runNeverLoseTyping, SETTLE_FRAMES } from './never-lose-typing.ts';

/** Every so many keys the typing is broken off, where a minute must be enough. */
export const QUICK_STRIDE = 13;

async function neverLoseTyping(size: RunSize): Promise<readonly Measure[]> {
  const { cases, lostEntries, lostTexts } = await runNeverLoseTyping(size === 'long' ? 1 : QUICK_STRIDE);
  const value = lostEntries.length + lostTexts.length;
  const what =
    `page killed, closed, reloaded, program quit or backend gone ${SETTLE_FRAMES} frames after each keystroke of a 40-key ` +
    `entry, ${cases} cases: ${lostEntries.length} with an accepted entry lost, ${lostTexts.length} with half-typed text lost`;
  const examples = [...lostEntries, ...lostTexts].slice(0, 6);
  return [{ id: 'R20', what: [what, ...examples].join('; '), value, unit: 'lost', goal: '0', ok: value === 0 }];
}

export const TYPING_RUN: MeasureRun = { ids: ['R20'], run: neverLoseTyping };
