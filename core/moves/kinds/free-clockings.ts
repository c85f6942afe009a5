/** Re-clockings that come free: at joints that are open, or come apart for something else. */

import type { Variable } from '../problem/variable.ts';
import type { CostTally } from '../ranking/cost-tally.ts';
import { MOST_SCREWS } from '../turning/end-motion.ts';

/** The places in a list of variables of those chosen, and after them of all re-clockings that cost no further joint. */
export function withFreeClockings(
  tally: CostTally,
  { variables, clockings }: { readonly variables: readonly Variable[]; readonly clockings: readonly number[] },
  chosen: readonly number[],
): number[] {
  const all = [...chosen];
  for (const index of chosen) tally.push(variables[index] as Variable);
  const opened = tally.stretchesPrice();
  for (const clocking of clockings) {
    if (all.length >= MOST_SCREWS) break;
    const { demand, isHeld } = variables[clocking] as Variable;
    if (isHeld || demand.kind !== 'oneOf' || chosen.includes(clocking)) continue;
    if (tally.isOpenIn(demand.first, demand.last, opened)) all.push(clocking);
  }
  for (let last = chosen.length - 1; last >= 0; last -= 1) tally.pop(variables[chosen[last] as number] as Variable);
  return all;
}
