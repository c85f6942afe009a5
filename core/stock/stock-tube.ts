/** How much tube an item of stock is. */

import { radiansOf } from '../units/angle.ts';
import { mmOf } from '../units/length.ts';
import type { StockItem } from './stock-item.ts';

/** Length of one piece along its centreline in mm, zero or more: of a bend its arc and both legs. */
export function stockTubeMm(item: StockItem): number {
  if (item.kind === 'straight') return mmOf(item.length);
  const [first, last] = item.legs;
  return mmOf(item.clr) * radiansOf(item.angleDeg) + mmOf(first) + mmOf(last);
}
