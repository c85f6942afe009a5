/** How long the processor works on something, which other processes beside it do not lengthen. */

import process from 'node:process';

/** Milliseconds that this thread was on the processor during `act`, and what `act` returned. */
export function onCpu<Value>(act: () => Value): { readonly ms: number; readonly value: Value } {
  const before = process.threadCpuUsage();
  const value = act();
  const { user, system } = process.threadCpuUsage(before);
  return { ms: (user + system) / 1000, value };
}
