/** How exactly a shop works, and what a limit either way is worth as a standard deviation. */

import type { Header } from '../header/header.ts';
import type { ShopTolerances } from '../header/measured.ts';

/**
 * Until the shop says otherwise: 1 degree on the angle of a bend, 1 1/2 degrees from one bend to the next, 3/32 in on a length.
 * Source: what bending shops print as their usual for tube of up to 2 1/2 in OD (1 degree for a single bend, 1 1/2 for several).
 */
export const USUAL_TOLERANCES: ShopTolerances = {
  angleDeg: 1,
  clockingDeg: 1.5,
  length: { value: 3 / 32, unit: 'in' },
};

export function tolerancesOf({ tolerances }: Header): ShopTolerances {
  return tolerances ?? USUAL_TOLERANCES;
}

/**
 * The standard deviation of what is known to lie within a limit either way, and no more: the limit over the root of 3.
 * Source: JCGM 100:2008 (Guide to the expression of uncertainty in measurement), 4.3.7.
 */
export function deviationOfLimit(limit: number): number {
  return limit / Math.sqrt(3);
}
