/** The search within the shelf. */

import type { StockItem } from '../../core/index.ts';
import { itemWords } from '../ui/words/item-words.ts';

/** Whether every word stands somewhere in the item's texts. */
export function hasWords(item: StockItem, words: string): boolean {
  const shown = itemWords(item);
  // Inches are shown by their mark, and looked for by their word too.
  const text = `${shown} ${shown.replaceAll('"', ' in')} ${item.note}`.toLowerCase();
  return words
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}
