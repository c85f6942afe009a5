/** What of the shelf is shown: the search within it, and the choice of a kind. */

import { compareStockItems, isLow, isRemnant, type StockItem, stockItemWords } from '../../core/index.ts';
import type { Stored } from './shelf-keeper.ts';

export const SHOWN = [
  { id: 'all', name: 'everything' },
  { id: 'bends', name: 'bends' },
  { id: 'straights', name: 'straights' },
  { id: 'remnants', name: 'remnants' },
  { id: 'low', name: 'low stock' },
] as const;
export type Shown = (typeof SHOWN)[number]['id'];

const WANTED: Readonly<Record<Shown, (item: StockItem) => boolean>> = {
  all: () => true,
  bends: (item) => item.kind === 'bend' && !isRemnant(item),
  straights: (item) => item.kind === 'straight' && !isRemnant(item),
  remnants: isRemnant,
  low: isLow,
};

/** Searched at every keystroke, and the same for an item as long as it is the same. */
const searched = new WeakMap<StockItem, string>();

function searchedText(item: StockItem): string {
  const known = searched.get(item);
  if (known !== undefined) return known;
  const words = stockItemWords(item);
  // Inches are shown by their mark, and looked for by their word too.
  const text = `${words} ${words.replaceAll('"', ' in')} ${item.note}`.toLowerCase();
  searched.set(item, text);
  return text;
}

/** Finds items in whose texts every word stands somewhere; without words every item. */
export function wordFinder(words: string): (item: StockItem) => boolean {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return () => true;
  return (item) => {
    const text = searchedText(item);
    return wanted.every((word) => text.includes(word));
  };
}

/** In the order in which stock lies side by side; bends before straights. */
export function inShelfOrder(stock: readonly Stored[]): readonly Stored[] {
  return [...stock].sort((a, b) => byKind(a.item) - byKind(b.item) || compareStockItems(a.item, b.item));
}

function byKind({ kind }: StockItem): number {
  return kind === 'bend' ? 0 : 1;
}

/** Of rows in their order, those that are asked for. Linear; 20,000 rows take a few milliseconds. */
export function shownRows(stock: readonly Stored[], shown: Shown, words: string): readonly Stored[] {
  const [isWanted, hasWords] = [WANTED[shown], wordFinder(words)];
  return stock.filter(({ item }) => isWanted(item) && hasWords(item));
}
