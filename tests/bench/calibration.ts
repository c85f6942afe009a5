/** How quick this machine's processor is, by a fixed loop of plain arithmetic: what limits in milliseconds are scaled by. */

import { performance } from 'node:perf_hooks';
import process from 'node:process';

const ROUNDS = 30_000_000;
/**
 * What the loop takes where a limit counts as written: each round waits for a multiplication and an addition of doubles, about
 * eight cycles together on today's processors, so this is a core at about 3 GHz with nothing else to do.
 */
const NOMINAL_MS = 80;

/** A chain in which every round needs the one before; it stays between 0 and 4, and its end depends on all of it. */
function chain(rounds: number): number {
  let value = 0.5;
  for (let round = 0; round < rounds; round += 1) value = value * 0.75 + 0.25 * (round & 1) + 0.125;
  return value;
}

export interface Calibration {
  readonly loopMs: number;
  /** What a limit in milliseconds is multiplied by here: 1 on the machine that limits are written for, 2 on one half as quick. */
  readonly factor: number;
  /** For the line of a measure. */
  readonly words: string;
}

/** Milliseconds that this thread was on the processor until now: a machine that is busy with other things does not lengthen them. */
export function threadCpuMs(): number {
  const { user, system } = process.threadCpuUsage();
  return (user + system) / 1000;
}

/** The least of several runs, so that what else the machine does is left out. By the clock that the measure itself goes by. */
export function calibrate(clockMs: () => number = () => performance.now()): Calibration {
  chain(ROUNDS / 10);
  let loopMs = Number.POSITIVE_INFINITY;
  for (let run = 0; run < 5; run += 1) {
    const startMs = clockMs();
    const end = chain(ROUNDS);
    if (!(end > 0 && end < 4)) throw new Error(`the calibration loop went astray: ${end}`);
    loopMs = Math.min(loopMs, clockMs() - startMs);
  }
  const factor = loopMs / NOMINAL_MS;
  const words = `limits times ${factor.toFixed(2)}, as a fixed loop took ${loopMs.toFixed(0)} ms here for ${NOMINAL_MS}`;
  return { loopMs, factor, words };
}
