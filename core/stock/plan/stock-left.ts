/** What a plan would leave on the shelf. */

import { enterChanges } from '../ledger/enter-changes.ts';
import type { StockItem } from '../stock-item.ts';
import { carryOut } from './carry-out.ts';
import type { CutPlan } from './cut-plan.ts';
import type { CutProblem } from './cut-problem.ts';

/** The shelf with the plan sawn: counts less what it opens, and its remnants at the end, under ids of their own. */
export function stockLeft(
  stock: readonly StockItem[],
  problem: Pick<CutProblem, 'stock'>,
  plan: Pick<CutPlan, 'opened'>,
): readonly StockItem[] {
  let remnants = 0;
  const newId = () => {
    remnants += 1;
    return `left-${remnants}`;
  };
  const changes = carryOut({ problem, plan, stock: stock.map((item) => ({ item, revision: 0 })) }, newId);
  const byId = new Map(stock.map((item) => [item.id, item]));
  const step = enterChanges((id) => {
    const item = byId.get(id);
    return item && { item, revision: 0, isRetired: false };
  }, changes);
  if (!step.ok) throw new Error(`a plan that the shelf refuses: ${JSON.stringify(step.problems)}`);
  for (const { after } of step.value.rows) {
    if (after.isRetired) byId.delete(after.item.id);
    else byId.set(after.item.id, after.item);
  }
  return [...byId.values()];
}
