/** An item of the shelf in words. */

import { formatTyped, formatTypedAngle, type StockItem } from '../../../core/index.ts';

/** "304 stainless 1 3/4 in bend, CLR 3 in, 90 degrees". */
export function itemWords(item: StockItem): string {
  const tube = `${item.material} ${formatTyped(item.od)}`;
  return item.kind === 'straight'
    ? `${tube} straight, ${formatTyped(item.length)}`
    : `${tube} bend, CLR ${formatTyped(item.clr)}, ${formatTypedAngle(item.angleDeg)} degrees`;
}
