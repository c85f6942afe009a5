/** The price of a set of changes, kept up to date as changes come and go. In plain arrays: it is asked a million times in one search. */

import type { JointDemand, JointState } from '../problem/joints.ts';
import { BEND_STEP, CUT_STEP, HELD_STEP, JOINT_STEP } from './cost.ts';

/** What decides about the cost of changing something, before its values are known. */
export interface Touch {
  readonly demand: JointDemand;
  readonly isHeld: boolean;
  readonly cuts: number;
  readonly adjusted: number;
  /** Bends that it adds; none when left out. */
  readonly bends?: number;
}

/** More changes than any set has; as many as bits of a number, too. */
const MOST_STRETCHES = 30;

/**
 * Held, bends, joints, cuts and adjusted of a set of changes in one number that sorts as they do, last in first out. The joints
 * are those of `jointWork`, which a test compares. The number does not fall when a change is added, but for a piece taken out
 * between two others that are changed: two joints become one.
 */
export class CostTally {
  private readonly prices: Float64Array;
  /** How many of the changes in hand take each joint apart. */
  private readonly freed: Uint8Array;
  /** One joint of each must come apart. */
  private readonly firsts = new Int32Array(MOST_STRETCHES);
  private readonly lasts = new Int32Array(MOST_STRETCHES);
  private stretches = 0;
  private sum = 0;

  constructor(states: readonly JointState[]) {
    // Entries more for the joint behind the last piece, the inlet, which is free.
    this.prices = new Float64Array(states.length + 2);
    this.freed = new Uint8Array(states.length + 2);
    for (const [joint, state] of states.entries()) this.prices[joint] = priceOf(state);
  }

  push(touch: Touch): void {
    const { demand } = touch;
    this.sum += this.ownPrice(touch);
    if (demand.kind === 'oneOf') {
      this.firsts[this.stretches] = demand.first;
      this.lasts[this.stretches] = demand.last;
      this.stretches += 1;
      return;
    }
    this.free(firstJointOf(demand));
    if (demand.kind !== 'joint') this.free(demand.pieceIndex + 1);
  }

  /** Takes back the last `push`, which must have been of this. */
  pop(touch: Touch): void {
    const { demand } = touch;
    this.sum -= this.ownPrice(touch);
    if (demand.kind === 'oneOf') {
      this.stretches -= 1;
      return;
    }
    this.restore(firstJointOf(demand));
    if (demand.kind !== 'joint') this.restore(demand.pieceIndex + 1);
  }

  get key(): number {
    return this.sum + this.stretchesPrice();
  }

  /** Key of these changes on top of those in hand. */
  keyOf(touches: readonly Touch[]): number {
    for (const touch of touches) this.push(touch);
    const { key } = this;
    for (let i = touches.length - 1; i >= 0; i -= 1) this.pop(touches[i] as Touch);
    return key;
  }

  /** Whether a joint from `first` to `last` is open or comes apart anyway; `opened` is `stretchesPrice` of the changes in hand. */
  isOpenIn(first: number, last: number, opened: number): boolean {
    for (let joint = first; joint <= last; joint += 1) {
      if (this.freed[joint] !== 0 || this.prices[joint] === 0) return true;
    }
    if (!this.meetsStretch(first, last)) return false;
    this.firsts[this.stretches] = first;
    this.lasts[this.stretches] = last;
    this.stretches += 1;
    const isOpen = this.stretchesPrice() === opened;
    this.stretches -= 1;
    return isOpen;
  }

  /** Whether any of the stretches in hand has a joint in common with this one. */
  private meetsStretch(first: number, last: number): boolean {
    for (let i = 0; i < this.stretches; i += 1) {
      if ((this.firsts[i] as number) <= last && (this.lasts[i] as number) >= first) return true;
    }
    return false;
  }

  private ownPrice({ demand, isHeld, cuts, adjusted, bends = 0 }: Touch): number {
    const price = (isHeld ? HELD_STEP : 0) + bends * BEND_STEP + cuts * CUT_STEP + adjusted;
    if (demand.kind === 'oneOf') return price;
    if (demand.kind !== 'gone') return price + demand.more * JOINT_STEP;
    const { pieceIndex } = demand;
    const isJoined = this.prices[pieceIndex] !== 0 || this.prices[pieceIndex + 1] !== 0;
    return isJoined ? price - JOINT_STEP : price;
  }

  /** What the stretches in hand add, by their far ends: each that has no open joint yet is opened at its last tacked one. */
  stretchesPrice(): number {
    if (this.stretches === 0) return 0;
    let price = 0;
    let seen = 0;
    // Of joints opened here only the last can help a stretch that ends later.
    let lastOpened = -1;
    for (let round = 0; round < this.stretches; round += 1) {
      let next = -1;
      for (let i = 0; i < this.stretches; i += 1) {
        const isEarlier = next < 0 || (this.lasts[i] as number) < (this.lasts[next] as number);
        if (((seen >> i) & 1) === 0 && isEarlier) next = i;
      }
      seen |= 1 << next;
      const first = this.firsts[next] as number;
      if (first <= lastOpened) continue;
      const joint = this.cheapest(first, this.lasts[next] as number);
      const least = this.freed[joint] === 0 ? (this.prices[joint] as number) : 0;
      price += least;
      if (least > 0) lastOpened = joint;
    }
    return price;
  }

  /** The joint from `first` to `last` that comes apart most cheaply; of equals the last. */
  private cheapest(first: number, last: number): number {
    let best = last;
    let least = Number.POSITIVE_INFINITY;
    for (let joint = last; joint >= first && least > 0; joint -= 1) {
      const price = this.freed[joint] === 0 ? (this.prices[joint] as number) : 0;
      if (price < least) {
        best = joint;
        least = price;
      }
    }
    return best;
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

function firstJointOf(demand: Exclude<JointDemand, { readonly kind: 'oneOf' }>): number {
  return demand.kind === 'joint' ? demand.joint : demand.pieceIndex;
}

function priceOf(state: JointState): number {
  if (state === 'tacked') return JOINT_STEP;
  return state === 'welded' ? HELD_STEP : 0;
}
