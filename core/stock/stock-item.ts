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
