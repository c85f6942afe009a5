/** A shop's own prices for its work, in place of the order in which costs count. */

import { BEND_STEP, type CostFigures, keyParts, largestKeyWith } from './cost.ts';

/** In one unit, minutes or money, whichever the shop counts in; each zero or more. */
export interface ShopPrices {
  /** For each joint to be made, opened and made again or new. */
  readonly joint: number;
  /** For each saw cut. */
  readonly cut: number;
  /** For each bend added, on top of its joints and cuts. */
  readonly bend: number;
  /** For a metre of tube added. */
  readonly tubeMetre: number;
  /** For each piece that the shelf lacks. */
  readonly ordered: number;
}

/** What is priced of a move. */
type Priced = Pick<CostFigures, 'joints' | 'cuts' | 'bends' | 'lacking'> & { readonly tubeAddedMm: number };

/** Zero without prices, so that the order decides alone. */
export function priceOf(prices: ShopPrices | null, { joints, cuts, bends, lacking, tubeAddedMm }: Priced): number {
  if (prices === null) return 0;
  const work = joints * prices.joint + cuts * prices.cut + bends * prices.bend;
  // To a thousandth, so that the same work done in another order has the same price.
  return Number((work + (tubeAddedMm / 1000) * prices.tubeMetre + lacking * prices.ordered).toFixed(3));
}

/** What a set of changes with this key costs at least, before tube and shelf are known. */
export function leastPriceOf(prices: ShopPrices, key: number): number {
  return priceOf(prices, { ...keyParts(key), lacking: 0, tubeAddedMm: 0 });
}

/**
 * A key that no set with so many bends added can exceed without costing more than `price`: by its joints alone, so that it may be
 * generous, and never rules out too much. Below zero when the bends alone cost more.
 */
export function keyLimitAt(prices: ShopPrices, price: number, bends: number): number {
  const left = price - bends * prices.bend;
  if (left < 0) return -1;
  const joints = prices.joint > 0 ? Math.floor(left / prices.joint + 1e-9) : Number.POSITIVE_INFINITY;
  return bends * BEND_STEP + largestKeyWith(joints);
}
