/** The search within the shelf. */

import { type StockItem, stockItemWords } from '../../core/index.ts';

/** Whether every word stands somewhere in the item's texts. */
export function hasWords(item: StockItem, words: string): boolean {
  const shown = stockItemWords(item);
  // Inches are shown by their mark, and looked for by their word too.
  const text = `${shown} ${shown.replaceAll('"', ' in')} ${item.note}`.toLowerCase();
  return words
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}
