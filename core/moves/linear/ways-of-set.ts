/** The ways in which one set of shifts can be carried out: which of its straights get shorter, and which longer. */

import type { CostTally, Touch } from '../ranking/cost-tally.ts';
import { cheapestShifts } from './cheapest-shifts.ts';
import { fittingRanges, type Range } from './fitting-ranges.ts';
import type { Shift } from './shift.ts';
import type { ShiftOption } from './shift-option.ts';
import type { ShiftWindows } from './shift-windows.ts';

export interface SetToSettle {
  readonly chosen: readonly ShiftOption[];
  readonly off: Shift;
  readonly windows: ShiftWindows;
  /** What is touched whatever is chosen here. */
  readonly touched: readonly Touch[];
  readonly pricer: CostTally;
  readonly keyLimit: number;
}

export interface SettledSet {
  readonly key: number;
  /** Value of each, as the variable counts it. */
  readonly values: readonly number[];
  /** Tube, distance off target and closure in one, as `cost.ts` weighs them. */
  readonly cost: number;
}

interface Way {
  readonly key: number;
  readonly options: readonly ShiftOption[];
}

/**
 * The cheapest way in which the set works, by key and then by the program's cost; null when none does, or none within the limit.
 *
 * Shorter takes a joint less than longer, so where the least squares answer does not tell, both are tried. Of the ways with the
 * least key that works the cheapest counts: dearer ones would change the same pieces for more.
 */
export function settleSet(set: SetToSettle): SettledSet | null {
  const ranges = fittingRanges(set.chosen, set.off, set.windows);
  if (ranges === null) return null;
  const ways = waysOf(set, ranges);
  ways.sort((a, b) => a.key - b.key);
  let best: SettledSet | null = null;
  for (const { key, options } of ways) {
    if (best !== null && key > best.key) break;
    const settled = cheapestShifts(options, set.off, set.windows);
    if (settled !== null && (best === null || settled.cost < best.cost)) best = { key, ...settled };
  }
  return best;
}

/** Those within the limit: every choice of sides, each priced on top of the ones before it. */
function waysOf({ chosen, touched, pricer, keyLimit }: SetToSettle, ranges: readonly Range[]): Way[] {
  let column = 0;
  const sides = chosen.map((option) => {
    const range = option.column === null ? null : (ranges[column] ?? null);
    if (option.column !== null) column += 1;
    return sidesOf(option, range);
  });
  const ways: Way[] = [];
  const taken: ShiftOption[] = [];
  const choose = (at: number) => {
    if (at === sides.length) {
      const { key } = pricer;
      if (key <= keyLimit) ways.push({ key, options: [...taken] });
      return;
    }
    for (const side of sides[at] ?? []) {
      pricer.push(side);
      taken.push(side);
      choose(at + 1);
      taken.pop();
      pricer.pop(side);
    }
  };
  for (const touch of touched) pricer.push(touch);
  choose(0);
  for (let last = touched.length - 1; last >= 0; last -= 1) pricer.pop(touched[last] as Touch);
  return ways;
}

/** The option made shorter and made longer; as one where that costs the same. */
function sidesOf(option: ShiftOption, range: Range | null): readonly ShiftOption[] {
  const { variable } = option;
  if (range === null || !variable.isDearerRising) return [option];
  const sides: ShiftOption[] = [];
  if (range.low < 0) sides.push({ ...option, upMm: 0 });
  if (range.high > 0) sides.push({ ...option, downMm: 0, demand: variable.demandOfMore });
  return sides;
}
