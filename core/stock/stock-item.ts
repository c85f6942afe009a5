/** What lies on the shop's shelf: bends and straights, as counted and typed. */

import type { Length } from '../units/length.ts';

interface StockCommon {
  readonly id: string;
  readonly material: string;
  readonly od: Length;
  readonly wall: Length;
  /** Whole pieces on hand, zero or more. */
  readonly count: number;
  readonly note: string;
  /** What one piece costs, in the shop's own money; absent: not known. */
  readonly cost?: number;
  /** The shop wants at least so many; absent: any number will do. */
  readonly least?: number;
  /** Present on a remnant: the id of the row that it was cut from, or null where that is not on this shelf. */
  readonly cutFrom?: string | null;
}

/** A mandrel bend as bought, with the straight legs formed on its two ends. */
export interface StockBend extends StockCommon {
  readonly kind: 'bend';
  readonly clr: Length;
  readonly angleDeg: number;
  readonly legs: readonly [Length, Length];
}

export interface StockStraight extends StockCommon {
  readonly kind: 'straight';
  readonly length: Length;
}

export type StockItem = StockBend | StockStraight;

/** Whether fewer are left than the shop wants. */
export function isLow({ count, least = 0 }: Pick<StockItem, 'count' | 'least'>): boolean {
  return count < least;
}

export function isRemnant(item: StockItem): boolean {
  return item.cutFrom !== undefined;
}
