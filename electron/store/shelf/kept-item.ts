/** An item as it is kept on disk: without its count, which is the sum of its movements. */

import * as z from 'zod';
import { type StockItem, stockItemSchema } from '../../../core/index.ts';

/** Reads with a count of 0, for whoever knows the movements to fill in. */
export const keptItemSchema = z.preprocess(
  (kept) => (typeof kept === 'object' && kept !== null ? { ...kept, count: 0 } : kept),
  stockItemSchema,
);

export function keptItem(item: StockItem): Omit<StockItem, 'count'> {
  const { count: _derived, ...kept } = item;
  return kept;
}
