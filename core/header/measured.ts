/** What was measured on the finished tube, as it was read, and how exactly the shop works. */

import type { Length } from '../units/length.ts';

/** A volume exactly as it was read. */
export interface Volume {
  readonly value: number;
  readonly unit: 'ml' | 'in3';
}

export type MeasureKind = 'outsideTape' | 'centreline' | 'filling';

/** In the order in which they are shown. */
export const MEASURE_KINDS: readonly MeasureKind[] = ['outsideTape', 'centreline', 'filling'];

/**
 * One reading of a whole primary, from its flange face to its inlet. `within` is how far the reading may be out, either way.
 * - `outsideTape`: a tape laid along each piece, along the outside of every bend.
 * - `centreline`: a string or wire down the middle of the tube.
 * - `filling`: what the tube holds; divided by the area of its bore it is the length of its centreline.
 */
export type Measurement =
  | { readonly kind: 'outsideTape' | 'centreline'; readonly length: Length; readonly within: Length }
  | { readonly kind: 'filling'; readonly volume: Volume; readonly within: Volume };

/** How far a made piece may be from its figure, either way: the limit, not the usual. */
export interface ShopTolerances {
  /** Angle of a bend. */
  readonly angleDeg: number;
  /** Clocking at a joint. */
  readonly clockingDeg: number;
  /** Length of a straight. */
  readonly length: Length;
}
