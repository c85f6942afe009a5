/** What a move costs, in the order in which costs count. */

/**
 * Compared in this order (common practice; a shop counts the joints that it has to fit and weld):
 *
 * 1. `held`: locked or welded pieces changed and welded joints broken. Zero in every move that is offered; above zero
 *    only while the search tries what would have to be freed.
 *    After it a shop's own price, where it has one, goes before all that follows.
 * 2. `bends`: bends added.
 * 3. `joints`: joints to be made, opened and made again or new, see `problem/joints.ts`. What is planned and not joined costs nothing
 *    to change.
 * 4. `cuts`: saw cuts. A straight or bend cut to another length or angle, a bend replaced and a piece let in take one
 *    each; a piece taken out or re-clocked takes none, nor does one that is still planned and not cut yet.
 * 5. `adjusted`: bends re-clocked and planned pieces changed. They take no saw, but each is something to see to.
 * 6. `tubeMm`: tube added, and the distance from the length aimed at as `ClosenessPrices` counts it. Added are: what straights
 *    gain, straights let in, and the whole of every bend that is not cut out of the one there. Whole millimetres count:
 *    less than that does not outweigh what comes after.
 * 7. `lacking`: pieces needed that the shelf does not have.
 * 8. `offMm`: distance from the length aimed at, then `tightMm`: how far the least clearance is below the wanted gap.
 */
export interface CostFigures {
  readonly held: number;
  /** The shop's own price, see `shop-prices.ts`; zero where the shop has none. */
  readonly price: number;
  readonly bends: number;
  readonly joints: number;
  readonly cuts: number;
  readonly adjusted: number;
  readonly tubeMm: number;
  readonly lacking: number;
  readonly offMm: number;
  readonly tightMm: number;
}

/** Negative when `a` costs less. */
export function compareCosts(a: CostFigures, b: CostFigures): number {
  return (
    a.held - b.held ||
    a.price - b.price ||
    a.bends - b.bends ||
    a.joints - b.joints ||
    a.cuts - b.cuts ||
    a.adjusted - b.adjusted ||
    Math.round(a.tubeMm) - Math.round(b.tubeMm) ||
    a.lacking - b.lacking ||
    roundTenth(a.offMm) - roundTenth(b.offMm) ||
    roundTenth(a.tightMm) - roundTenth(b.tightMm) ||
    a.tubeMm - b.tubeMm
  );
}

function roundTenth(mm: number): number {
  return Math.round(mm * 10);
}

/** The first five in one number that sorts as they do: a key. */
export const HELD_STEP = 1e12;
export const BEND_STEP = 1e9;
export const JOINT_STEP = 1e6;
export const CUT_STEP = 1e3;

/** Each thing more to see to: the least that any further change adds to a key. */
export const LEAST_STEP = 1;

/** The largest key of a set that makes so many joints, adds no bend and touches nothing held. */
export function largestKeyWith(joints: number): number {
  return Math.min(BEND_STEP, (joints + 1) * JOINT_STEP) - 1;
}

/** Tells the parts of a key apart again. */
export function keyParts(key: number): Pick<CostFigures, 'held' | 'bends' | 'joints' | 'cuts' | 'adjusted'> {
  return {
    held: Math.floor(key / HELD_STEP),
    bends: Math.floor((key % HELD_STEP) / BEND_STEP),
    joints: Math.floor((key % BEND_STEP) / JOINT_STEP),
    cuts: Math.floor((key % JOINT_STEP) / CUT_STEP),
    adjusted: key % CUT_STEP,
  };
}
