/** An item of the shelf in words. */

import { formatTypedAngle, typedText } from '../units/format-typed.ts';
import { isRemnant, type StockItem } from './stock-item.ts';

/** `304 stainless 1 3/4" bend, CLR 3", 90 degrees`; a remnant says that it is one. */
export function stockItemWords(item: StockItem): string {
  const tube = `${item.material} ${typedText(item.od)}`;
  const kind = isRemnant(item) ? `${item.kind} remnant` : item.kind;
  return item.kind === 'straight'
    ? `${tube} ${kind}, ${typedText(item.length)}`
    : `${tube} ${kind}, CLR ${typedText(item.clr)}, ${formatTypedAngle(item.angleDeg)} degrees`;
}
