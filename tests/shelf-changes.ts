/** Requests that change the shelf, as tests write them. */

import type { StockItem } from '../core/stock/stock-item.ts';
import type { AskedOf } from '../electron/bridge/contract.ts';

type Change = AskedOf<'changeShelf'>;

export function adding(...items: readonly StockItem[]): Change {
  return { changes: items.map((item) => ({ kind: 'add', item })), because: '' };
}

export function setting(item: StockItem, revision: number): Change {
  return { changes: [{ kind: 'set', item, revision }], because: '' };
}

export function retiring(itemId: string, revision: number): Change {
  return { changes: [{ kind: 'retire', itemId, revision }], because: '' };
}
