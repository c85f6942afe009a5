/** What a move costs, in the order in which costs count. */

import type { JointDemand, JointState } from '../problem/joints.ts';
import type { MoveProblem } from '../problem/move-problem.ts';

/**
 * Compared in this order:
 *
 * 1. `held`: locked or welded pieces changed and welded joints broken. Zero in every move that is offered; above zero
 *    only while the search tries what would have to be freed.
 * 2. `joints`: tacked joints that come apart, see `joints.ts`. Joints to planned and merely cut pieces come apart for free.
 * 3. `cuts`: saw cuts. A straight or bend cut to another length or angle, a bend replaced and a piece let in take one
 *    each; a piece taken out or re-clocked takes none, nor does one that is still planned and not cut yet.
 * 4. `adjusted`: bends re-clocked and planned pieces changed. They take no saw, but each is something to see to.
 * 5. `tubeMm`: tube added, and the distance from the length aimed at as `MissWeights` counts it. Added are: what straights
 *    gain, straights let in, and the whole of every bend that is not cut out of the one there. Whole millimetres count:
 *    less than that does not outweigh what comes after.
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

/** Each thing more to see to: the least that any further change adds to a key. */
export const LEAST_STEP = 1;

/** The largest key of a set that takes so many tacked joints apart and touches nothing held. */
export function largestKeyWith(joints: number): number {
  return Math.min(HELD_STEP, (joints + 1) * JOINT_STEP) - 1;
}

/**
 * Held, joints, cuts and adjusted of a set of changes in one number that sorts as they do, kept up to date as changes
 * come and go, last in first out. The number never falls when a change is added.
 */
export class CostTally {
  private readonly prices: Float64Array;
  /** How many of the changes in hand take each joint apart. */
  private readonly freed: Uint8Array;
  private readonly turns: { readonly first: number; readonly last: number }[] = [];
  private sum = 0;

  constructor({ jointStates }: Pick<MoveProblem, 'jointStates'>) {
    // One place more for the joint behind the last piece, the inlet, which is free.
    this.prices = new Float64Array(jointStates.length + 2);
    this.freed = new Uint8Array(jointStates.length + 2);
    for (const [joint, state] of jointStates.entries()) this.prices[joint] = priceOf(state);
  }

  push({ demand, isHeld, cuts, adjusted }: Touch): void {
    this.sum += (isHeld ? HELD_STEP : 0) + cuts * CUT_STEP + adjusted;
    if (demand.kind === 'oneOf') {
      this.turns.push(demand);
      return;
    }
    const joint = demand.kind === 'piece' ? demand.pieceIndex : demand.joint;
    this.free(joint);
    if (demand.kind === 'piece') this.free(joint + 1);
  }

  /** Takes back the last `push`, which must have been of this. */
  pop({ demand, isHeld, cuts, adjusted }: Touch): void {
    this.sum -= (isHeld ? HELD_STEP : 0) + cuts * CUT_STEP + adjusted;
    if (demand.kind === 'oneOf') {
      this.turns.pop();
      return;
    }
    const joint = demand.kind === 'piece' ? demand.pieceIndex : demand.joint;
    this.restore(joint);
    if (demand.kind === 'piece') this.restore(joint + 1);
  }

  get key(): number {
    let key = this.sum;
    // Re-clockings use a joint that is free already where they can.
    for (let i = 0; i < this.turns.length; i += 1) {
      const { first, last } = this.turns[i] as { readonly first: number; readonly last: number };
      key += this.priceOfTurning(first, last);
    }
    return key;
  }

  /** Key of these changes on top of those in hand. */
  keyOf(touches: readonly Touch[]): number {
    for (const touch of touches) this.push(touch);
    const { key } = this;
    for (let i = touches.length - 1; i >= 0; i -= 1) this.pop(touches[i] as Touch);
    return key;
  }

  /** What a re-clocking adds in joints; no two have a joint in common, so which one is freed need not be noted. */
  priceOfTurning(first: number, last: number): number {
    let least = Number.POSITIVE_INFINITY;
    for (let joint = first; joint <= last && least > 0; joint += 1) {
      const price = this.freed[joint] === 0 ? (this.prices[joint] as number) : 0;
      if (price < least) least = price;
    }
    return least;
  }

  private free(joint: number): void {
    if (this.freed[joint] === 0) this.sum += this.prices[joint] as number;
    this.freed[joint] = (this.freed[joint] as number) + 1;
  }

  private restore(joint: number): void {
    this.freed[joint] = (this.freed[joint] as number) - 1;
    if (this.freed[joint] === 0) this.sum -= this.prices[joint] as number;
  }
}

function priceOf(state: JointState): number {
  if (state === 'tacked') return JOINT_STEP;
  return state === 'welded' ? HELD_STEP : 0;
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
