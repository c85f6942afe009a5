/** What a search for proposals may be asked. */

import type { StockItem } from '../stock/stock-item.ts';
import type { Length } from '../units/length.ts';

/**
 * `target`: the header's target within its tolerance, or the least where there is none or the primary sets it itself. `least`: as short as can be.
 * `about`: this length as welded, and so much less or more. All of the whole primary, what is kept of it included.
 */
export type WantedLength =
  | { readonly kind: 'target' }
  | { readonly kind: 'least' }
  | { readonly kind: 'about'; readonly lengthMm: number; readonly minusMm: number; readonly plusMm: number };

/** Everything has a default. What else counts stands in the header's own settings. */
export interface ProposeOptions {
  /** By default the target. */
  readonly length?: WantedLength;
  /** CLRs that bends may have; null: those on the shelf, or the header's own where no shelf is given. */
  readonly clrs?: readonly Length[] | null;
  /** The shelf; null: not considered, and angles that bends are commonly bought in are preferred. */
  readonly stock?: readonly StockItem[] | null;
  /** 0 to 4, four unless said otherwise. */
  readonly mostBends?: number;
  /** Least gap kept to other tubes, obstacles and itself; the header's wanted gap unless said otherwise. Null: any. */
  readonly clearanceKeptMm?: number | null;
  /** Ideas at most; six unless said otherwise. */
  readonly most?: number;
  /** Ids for the new pieces; by default the first free ones of a fixed series. */
  readonly newId?: () => string;
}
