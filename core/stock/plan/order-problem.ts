/** What to order for pieces that a plan leaves short. */

import { isRemnant, type StockItem } from '../stock-item.ts';
import type { CutProblem } from './cut-problem.ts';
import { stockRow } from './from-shelf.ts';

/**
 * The short pieces alone, to be cut from whatever the shelf has a row of, however few lie there: that is what the shop buys, at
 * the costs it knows. Remnants cannot be ordered. Each row is there as often as could be wanted.
 */
export function orderProblem(
  { pieces, joints, saw }: Omit<CutProblem, 'stock'>,
  short: readonly string[],
  stock: readonly StockItem[],
): CutProblem {
  const isShort = new Set(short);
  const sizes = new Map<string, StockItem>();
  for (const item of stock) {
    const { note: _note, id: _id, least: _least, ...size } = item;
    const text = JSON.stringify(Object.entries({ ...size, count: 0 }).sort(([a], [b]) => (a < b ? -1 : 1)));
    if (!isRemnant(item) && !sizes.has(text)) sizes.set(text, item);
  }
  return {
    pieces: pieces.filter(({ id }) => isShort.has(id)),
    joints: joints.filter(({ straightId, bendId }) => isShort.has(straightId) && isShort.has(bendId)),
    stock: [...sizes.values()].map((item) => ({ ...stockRow(item), count: short.length })),
    saw,
  };
}
