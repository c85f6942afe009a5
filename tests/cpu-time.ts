/** How long the processor works on something, which other processes beside it do not lengthen. */

import process from 'node:process';
import { calibrate } from './bench/calibration.ts';

/** Milliseconds that this thread was on the processor during `act`, and what `act` returned. */
export function onCpu<Value>(act: () => Value): { readonly ms: number; readonly value: Value } {
  const before = process.threadCpuUsage();
  const value = act();
  const { user, system } = process.threadCpuUsage(before);
  return { ms: (user + system) / 1000, value };
}

let slowness: number | null = null;

/** A limit in milliseconds as it counts on this machine: longer where the processor is slower than the one it was written for, never shorter. */
export function limitHere(ms: number): number {
  slowness ??= Math.max(1, calibrate().factor);
  return ms * slowness;
}

/** The least of so many runs: the code's own time, for caches that other programs have emptied lengthen the others. */
export function leastMs(runs: number, act: () => unknown): number {
  let least = Number.POSITIVE_INFINITY;
  for (let run = 0; run < runs; run += 1) {
    const began = performance.now();
    act();
    least = Math.min(least, performance.now() - began);
  }
  return least;
}
