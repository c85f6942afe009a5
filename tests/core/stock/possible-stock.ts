/** Stock that can be, out of stock made at random. */

import type { Arbitrary } from 'fast-check';
import type { StockItem } from '../../../core/stock/stock-item.ts';

/** The same items with a wall of at most half the OD and a CLR of at least half of it. */
export function possible(items: Arbitrary<StockItem>): Arbitrary<StockItem> {
  return items.map((item) => {
    const { od } = item;
    const tube = { od, wall: { ...od, value: od.value * (0.02 + (item.wall.value % 0.48)) } };
    if (item.kind === 'straight') return { ...item, ...tube };
    return { ...item, ...tube, clr: { ...od, value: od.value * (0.5 + (item.clr.value % 0.5)) } };
  });
}
