/** The price of a set of changes, kept up to date as changes come and go. */

import type { JointDemand, JointState } from '../problem/joints.ts';
import { CUT_STEP, HELD_STEP, JOINT_STEP } from './cost.ts';

/** What decides about the cost of changing something, before its values are known. */
export interface Touch {
  readonly demand: JointDemand;
  readonly isHeld: boolean;
  readonly cuts: number;
  readonly adjusted: number;
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

  constructor(jointStates: readonly JointState[]) {
    // One entry more for the joint behind the last piece, the inlet, which is free.
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
