/** What a move takes from the shelf, and whether it is there. */

import type { Tube } from '../../header/header.ts';
import { isOfTube, shelfMatch } from '../../stock/shelf-match.ts';
import type { StockItem } from '../../stock/stock-item.ts';
import { type Length, mmOf } from '../../units/length.ts';
import type { StockNeed } from '../move.ts';

export function straightNeed(stock: readonly StockItem[], tube: Tube, lengthMm: number): StockNeed {
  const isOnShelf = stock.some(
    (item) => item.kind === 'straight' && item.count > 0 && isOfTube(item, tube) && mmOf(item.length) >= lengthMm,
  );
  return { kind: 'straight', lengthMm, isOnShelf };
}

export function bendNeed(
  stock: readonly StockItem[],
  tube: Tube,
  bend: { readonly clr: Length; readonly angleDeg: number },
): StockNeed {
  return { kind: 'bend', ...bend, onShelf: shelfMatch(stock, bend, tube) };
}

export function isLacking(need: StockNeed): boolean {
  return need.kind === 'straight' ? !need.isOnShelf : need.onShelf !== 'onShelf';
}
