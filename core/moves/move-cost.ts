/** What a move costs, in the order in which costs count. */

import type { JointDemand, JointState } from './joints.ts';
import type { MoveProblem } from './move-problem.ts';

/**
 * Compared in this order:
 *
 * 1. `held`: locked or welded pieces changed and welded joints broken. Zero in every move that is offered; above zero
 *    only while the search tries what would have to be freed.
 * 2. `joints`: tacked joints that come apart, see `joints.ts`. Joints to planned and merely cut pieces come apart for free.
 * 3. `cuts`: saw cuts. A straight or bend cut to another length or angle, a bend replaced and a piece let in take one
 *    each; a piece taken out or re-clocked takes none, nor does one that is still planned and not cut yet.
 * 4. `adjusted`: bends re-clocked and planned pieces changed. They take no saw, but each is something to see to.
 * 5. `tubeMm`: tube added, plus four times the distance from the length aimed at. Added are: what straights gain, straights let
 *    in, and the whole of every bend that is not cut out of the one there. The distance counts because the least tube alone
 *    would always stop at the edge of the band; four, because nobody adds and takes off 100 mm to come 1 mm nearer.
 *    Whole millimetres count: less than that does not outweigh what comes after.
 * 6. `lacking`: pieces needed that the shelf does not have.
 * 7. `offMm`: distance from the length aimed at, then `tightMm`: how far the least clearance is below the wanted gap.
 */
export interface CostFigures {
  readonly held: number;
  readonly joints: number;
  readonly cuts: number;
  readonly adjusted: number;
  readonly tubeMm: number;
  readonly lacking: number;
  readonly offMm: number;
  readonly tightMm: number;
}

/** Millimetres of tube that a millimetre off the target counts as. */
export const OFF_TARGET_WEIGHT = 4;

/** Negative when `a` costs less. */
export function compareCosts(a: CostFigures, b: CostFigures): number {
  return (
    a.held - b.held ||
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

/** What decides about the cost of changing something, before its values are known. */
export interface Touch {
  readonly demand: JointDemand;
  readonly isHeld: boolean;
  readonly cuts: number;
  readonly adjusted: number;
}

export const HELD_STEP = 1e9;
const JOINT_STEP = 1e6;
const CUT_STEP = 1e3;

/** Stamps of the joints that the set in hand takes apart; a new stamp for every set saves clearing it. */
let stamps = new Int32Array(64);
let stamp = 0;

/** Held, joints, cuts and adjusted of a set of changes in one number that sorts as they do. Never falls when a change is added. */
export function costKey({ jointStates }: MoveProblem, touches: readonly Touch[]): number {
  if (stamps.length <= jointStates.length) stamps = new Int32Array(2 * jointStates.length);
  stamp += 1;
  let key = 0;
  for (const { demand, isHeld, cuts, adjusted } of touches) {
    key += (isHeld ? HELD_STEP : 0) + cuts * CUT_STEP + adjusted;
    if (demand.kind === 'piece') {
      key += priceOfFreeing(jointStates, demand.pieceIndex) + priceOfFreeing(jointStates, demand.pieceIndex + 1);
    } else if (demand.kind === 'joint') key += priceOfFreeing(jointStates, demand.joint);
  }
  // Re-clockings last: they use a joint that is free already where they can.
  for (const { demand } of touches) if (demand.kind === 'oneOf') key += priceOfTurning(jointStates, demand);
  return key;
}

function priceOf(state: JointState | undefined): number {
  if (state === 'tacked') return JOINT_STEP;
  return state === 'welded' ? HELD_STEP : 0;
}

function priceOfFreeing(states: readonly JointState[], joint: number): number {
  if (stamps[joint] === stamp) return 0;
  stamps[joint] = stamp;
  return priceOf(states[joint]);
}

/** No two re-clockings have a joint in common, so which one is freed need not be noted. */
function priceOfTurning(
  states: readonly JointState[],
  { first, last }: { readonly first: number; readonly last: number },
) {
  let least = Number.POSITIVE_INFINITY;
  for (let joint = first; joint <= last && least > 0; joint += 1) {
    least = Math.min(least, stamps[joint] === stamp ? 0 : priceOf(states[joint]));
  }
  return least;
}

/** Tells the parts of a key apart again. */
export function keyParts(key: number): Pick<CostFigures, 'held' | 'joints' | 'cuts' | 'adjusted'> {
  return {
    held: Math.floor(key / HELD_STEP),
    joints: Math.floor((key % HELD_STEP) / JOINT_STEP),
    cuts: Math.floor((key % JOINT_STEP) / CUT_STEP),
    adjusted: key % CUT_STEP,
  };
}
