/** The order in which the shelf shows its items, and the search within it. */

import { mmOf, type StockItem } from '../../core/index.ts';
import { itemWords } from '../ui/words/item-words.ts';

/** By material, then tube, then what tells bends and straights apart: as they would lie side by side. */
export function compareItems(a: StockItem, b: StockItem): number {
  const numbers = (item: StockItem) =>
    item.kind === 'bend'
      ? [mmOf(item.od), mmOf(item.wall), mmOf(item.clr), item.angleDeg]
      : [mmOf(item.od), mmOf(item.wall), mmOf(item.length), 0];
  const byMaterial = a.material.localeCompare(b.material);
  if (byMaterial !== 0) return byMaterial;
  const theirs = numbers(b);
  const difference = numbers(a)
    .map((value, at) => value - (theirs[at] ?? 0))
    .find((value) => value !== 0);
  return difference ?? a.id.localeCompare(b.id);
}

/** Whether every word stands somewhere in the item's texts. */
export function hasWords(item: StockItem, words: string): boolean {
  const text = `${itemWords(item)} ${item.note}`.toLowerCase();
  return words
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}
