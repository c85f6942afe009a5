/** The order in which stock is listed. */

import { mmOf } from '../units/length.ts';
import type { StockItem } from './stock-item.ts';

let names: Intl.Collator | null = null;

/** The same order whatever language the computer is set to. Made when it is first wanted, for that takes a while, and every start would wait. */
function inOrder(a: string, b: string): number {
  names ??= new Intl.Collator('en');
  return names.compare(a, b);
}

/** By material, then tube, then what tells bends and straights apart: as they would lie side by side. */
export function compareStockItems(a: StockItem, b: StockItem): number {
  const numbers = (item: StockItem) =>
    item.kind === 'bend'
      ? [mmOf(item.od), mmOf(item.wall), mmOf(item.clr), item.angleDeg]
      : [mmOf(item.od), mmOf(item.wall), mmOf(item.length), 0];
  const byMaterial = inOrder(a.material, b.material);
  if (byMaterial !== 0) return byMaterial;
  const theirs = numbers(b);
  const difference = numbers(a)
    .map((value, at) => value - (theirs[at] ?? 0))
    .find((value) => value !== 0);
  return difference ?? inOrder(a.id, b.id);
}
