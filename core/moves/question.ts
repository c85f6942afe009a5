/** What a search for moves may be asked. */

import type { StockItem } from '../stock/stock-item.ts';
import type { ShopPrices } from './ranking/shop-prices.ts';

/** Named after the hardest thing that a move asks for, easiest first. */
export type MoveKind =
  | 'straights'
  | 'clockings'
  | 'trims'
  | 'swaps'
  | 'bendOut'
  | 'bendIn'
  | 'bendPair'
  | 'kick'
  | 'lengthOnly';

export const MOVE_KINDS: readonly MoveKind[] = [
  'straights',
  'clockings',
  'trims',
  'swaps',
  'bendOut',
  'bendIn',
  'bendPair',
  'kick',
  'lengthOnly',
];

/** Everything has a default: all kinds, no limits, no stock. What else counts stands in the header's own settings. */
export interface MoveOptions {
  readonly kinds?: readonly MoveKind[];
  /** Joints to be made at most. */
  readonly maxJoints?: number;
  /** Moves that bring the primary nearer than this to anything are left out, unless it was as near to that very thing before. Null: any. */
  readonly clearanceKeptMm?: number | null;
  /** The shelf; null or none: not considered, bends are then only cut down and no CLR is swapped. */
  readonly stock?: readonly StockItem[] | null;
  /** The shop's own prices: the moves are put in order of price, and what costs the same in the order of `ranking/cost.ts`. Null: that order alone. */
  readonly prices?: ShopPrices | null;
  readonly maxMoves?: number;
  /** Ids for pieces let in; by default the first free ones of a fixed series. */
  readonly newId?: () => string;
}
