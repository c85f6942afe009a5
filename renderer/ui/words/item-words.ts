/** An item of the shelf in words. */

import { formatTypedAngle, type StockItem, typedText } from '../../../core/index.ts';

/** "304 stainless 1 3/4" bend, CLR 3", 90 degrees". */
export function itemWords(item: StockItem): string {
  const tube = `${item.material} ${typedText(item.od)}`;
  return item.kind === 'straight'
    ? `${tube} straight, ${typedText(item.length)}`
    : `${tube} bend, CLR ${typedText(item.clr)}, ${formatTypedAngle(item.angleDeg)} degrees`;
}
