/** What no tube can be: refused wherever an item comes from, before anything is changed. */

import { mmOf } from '../units/length.ts';
import { isSameSize } from './shelf-match.ts';
import type { StockItem } from './stock-item.ts';
import type { StockProblem } from './stock-problem.ts';

/**
 * Faults of an item whose cells could all be read: a wall of more than half the OD, which leaves no bore, and a CLR of less
 * than half the OD, whose inside would bend through itself. Sizes within 0.01 mm of the limit pass.
 */
export function stockItemProblems(item: StockItem): readonly StockProblem[] {
  const { od, wall } = item;
  const problems: StockProblem[] = [];
  if (isBelow(mmOf(od) / 2, mmOf(wall))) problems.push({ kind: 'stockWallTooThick', wall, od });
  if (item.kind === 'bend' && isBelow(mmOf(item.clr), mmOf(od) / 2))
    problems.push({ kind: 'stockClrTooTight', clr: item.clr, od });
  return problems;
}

function isBelow(aMm: number, bMm: number): boolean {
  return aMm < bMm && !isSameSize(aMm, bMm);
}
