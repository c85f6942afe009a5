/** Straight stock by prices: which ways of cutting it would make a plan cheaper than its relaxed program says, or as cheap. */

import { type Columns, type RunColumn, runColumn } from '../columns/columns.ts';
import { runRoomMm } from '../columns/run.ts';
import { cutWidthMm, FIT } from '../cut-problem.ts';
import type { Item } from './knapsack.ts';
import type { PlanModel } from './plan-model.ts';
import type { WeightedGoal } from './weighted-goal.ts';
import { bestForSure, type Looked, waysWorth } from './worth-cutting.ts';

export interface Priced {
  readonly sticks: readonly RunColumn[];
  /** Whether every way within the margin is here. */
  readonly isComplete: boolean;
}

export interface Prices {
  readonly goal: WeightedGoal;
  readonly rowPrices: readonly number[];
  /** Ways are wanted whose reduced cost is below this. */
  readonly below: number;
  /** `best`: the cheapest of each row alone. */
  readonly limit: number | 'best';
  /** How many of each size of straight are still wanted; all of them, when left out. */
  readonly counts?: readonly number[];
}

/** Rounding of prices; a way that is cheaper by less is none. */
export const PRICE_NOISE = 1e-6;

/**
 * A way's reduced cost is what it costs in the goal, less what the pieces it supplies and the rows it loads are priced at.
 * Tube lost is priced in two cases: what is left is kept, so that only the cuts are lost, or it is scrap.
 */
export function sticksWorth(columns: Columns, model: PlanModel, prices: Prices): Priced {
  const found = new Map<string, RunColumn>();
  let isComplete = true;
  columns.problem.straightRows.forEach((_, row) => {
    for (const { ways, isComplete: isWhole } of looked(columns, model, { ...prices, row })) {
      if (!isWhole) isComplete = false;
      for (const { straights } of ways) {
        const sorted = straights.toSorted((a, b) => a - b);
        const run = { kind: 'stick', lengthMm: columns.problem.straightRows[row]?.lengthMm ?? 0 } as const;
        found.set(`${row}:${sorted.join(',')}`, runColumn(run, row, { ...columns, straights: sorted }));
      }
    }
  });
  return { sticks: [...found.values()], isComplete };
}

interface OneRow extends Prices {
  readonly row: number;
}

function looked(
  columns: Columns,
  model: PlanModel,
  { goal, rowPrices, below, limit, row, counts }: OneRow,
): readonly Looked[] {
  const { problem, sizes } = columns;
  const lengthMm = problem.straightRows[row]?.lengthMm ?? 0;
  const price = (at: number) => rowPrices[at] ?? 0;
  const widthMm = cutWidthMm(problem.saw);
  const opening = (model.openingCosts[row] ?? 0) * (goal.weights.cost - price(model.goalRow.cost));
  const above = opening - price(model.places.straightRows + row) - below;
  // Tube lost is the last goal, so nothing holds it; its weight is nought under the goals before.
  const perMm = 100 * goal.weights.lost;
  const items = (more: (pieceMm: number) => number): readonly Item[] =>
    sizes.straights.map(({ lengthMm: pieceMm, ids }, size) => ({
      size,
      takesMm: pieceMm + widthMm,
      worth: price(model.places.straightSizes + size) + more(pieceMm),
      count: counts?.[size] ?? ids.length,
    }));
  const roomMm = runRoomMm({ kind: 'stick', lengthMm }, problem.saw);
  const filled = (all: readonly Item[], most: { readonly roomMm: number; readonly above: number }) =>
    limit === 'best' ? bestForSure(all, most) : waysWorth(all, { ...most, limit });
  const scrapped = filled(
    items((pieceMm) => perMm * pieceMm),
    { roomMm, above: above + perMm * lengthMm },
  );
  const keptMm = lengthMm - problem.saw.shortestRemnantMm + FIT;
  if (perMm === 0 || keptMm <= 0) return [scrapped];
  return [
    scrapped,
    filled(
      items(() => -perMm * widthMm),
      { roomMm: keptMm, above },
    ),
  ];
}
