/** What the shelf has in a tube, to be offered while a piece is typed. */

import type { Tube } from '../header/header.ts';
import { type Length, mmOf } from '../units/length.ts';
import { clrsOnShelf, isOfTube, isSameSize, SAME_ANGLE_DEG } from './shelf-match.ts';
import type { StockItem } from './stock-item.ts';

export interface ShelfOffers {
  /** CLRs of bends on hand, tightest first. */
  readonly clrs: readonly Length[];
  /** Angles of whole bends and remnants on hand, in degrees, smallest first. */
  readonly anglesDeg: readonly number[];
  /** Legs of bends on hand and straight remnants, shortest first: straights that lie there ready to be cut off. */
  readonly legs: readonly Length[];
}

/** Each value once and as first typed. Linear in the shelf, and in the values found. */
export function shelfOffers(stock: readonly StockItem[], tube: Tube): ShelfOffers {
  const anglesDeg: number[] = [];
  const legs: Length[] = [];
  for (const item of stock) {
    if (item.count === 0 || !isOfTube(item, tube)) continue;
    if (item.kind === 'bend' && !anglesDeg.some((angle) => Math.abs(angle - item.angleDeg) <= SAME_ANGLE_DEG))
      anglesDeg.push(item.angleDeg);
    for (const leg of readyStraights(item))
      if (mmOf(leg) > 0 && !legs.some((known) => isSameSize(mmOf(known), mmOf(leg)))) legs.push(leg);
  }
  return {
    clrs: clrsOnShelf(stock, tube),
    anglesDeg: anglesDeg.sort((a, b) => a - b),
    legs: legs.sort((a, b) => mmOf(a) - mmOf(b)),
  };
}

function readyStraights(item: StockItem): readonly Length[] {
  if (item.kind === 'bend') return item.legs;
  return item.cutFrom === undefined ? [] : [item.length];
}
