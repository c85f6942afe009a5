/** The price of a set of changes, kept up to date as changes come and go. */

import { type JointDemand, type JointState, moreJoints } from '../problem/joints.ts';
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

interface Stretch {
  readonly first: number;
  readonly last: number;
}

/**
 * Held, bends, joints, cuts and adjusted of a set of changes in one number that sorts as they do, last in first out. The joints
 * are those of `jointWork`, which a test compares. The number does not fall when a change is added, but for a piece taken out
 * between two others that are changed: two joints become one.
 */
export class CostTally {
  private readonly states: readonly JointState[];
  private readonly prices: Float64Array;
  /** How many of the changes in hand take each joint apart. */
  private readonly freed: Uint8Array;
  /** One joint of each must come apart, kept in the order of their far ends. */
  private readonly stretches: Stretch[] = [];
  private sum = 0;

  constructor(states: readonly JointState[]) {
    this.states = states;
    // Entries more for the joint behind the last piece, the inlet, which is free.
    this.prices = new Float64Array(states.length + 2);
    this.freed = new Uint8Array(states.length + 2);
    for (const [joint, state] of states.entries()) this.prices[joint] = priceOf(state);
  }

  push(touch: Touch): void {
    this.sum += this.ownPrice(touch);
    const { demand } = touch;
    if (demand.kind === 'oneOf') {
      const at = this.stretches.findLastIndex(({ last }) => last <= demand.last) + 1;
      this.stretches.splice(at, 0, demand);
      return;
    }
    this.free(firstJointOf(demand));
    if (demand.kind !== 'joint') this.free(demand.pieceIndex + 1);
  }

  /** Takes back the last `push`, which must have been of this. */
  pop(touch: Touch): void {
    this.sum -= this.ownPrice(touch);
    const { demand } = touch;
    if (demand.kind === 'oneOf') {
      this.stretches.splice(this.stretches.lastIndexOf(demand), 1);
      return;
    }
    this.restore(firstJointOf(demand));
    if (demand.kind !== 'joint') this.restore(demand.pieceIndex + 1);
  }

  get key(): number {
    return this.stretches.length === 0 ? this.sum : this.sum + this.stretchesPrice();
  }

  /** Key of these changes on top of those in hand. */
  keyOf(touches: readonly Touch[]): number {
    for (const touch of touches) this.push(touch);
    const { key } = this;
    for (let i = touches.length - 1; i >= 0; i -= 1) this.pop(touches[i] as Touch);
    return key;
  }

  /** Whether a joint of the stretch is open or comes apart anyway. */
  isOpenIn(stretch: Stretch): boolean {
    const before = this.key;
    const touch: Touch = { demand: { kind: 'oneOf', ...stretch }, isHeld: false, cuts: 0, adjusted: 0 };
    this.push(touch);
    const isOpen = this.key === before;
    this.pop(touch);
    return isOpen;
  }

  private ownPrice({ demand, isHeld, cuts, adjusted, bends = 0 }: Touch): number {
    const joints = moreJoints(demand, this.states);
    return (isHeld ? HELD_STEP : 0) + bends * BEND_STEP + joints * JOINT_STEP + cuts * CUT_STEP + adjusted;
  }

  /** What the stretches add: each that has no open joint yet is opened at its last tacked one. */
  private stretchesPrice(): number {
    let price = 0;
    // Only joints opened here: those before the last of them cannot help a stretch that ends later.
    let lastOpened = -1;
    for (let i = 0; i < this.stretches.length; i += 1) {
      const { first, last } = this.stretches[i] as Stretch;
      if (first <= lastOpened) continue;
      const joint = this.cheapest(first, last);
      const least = this.freed[joint] === 0 ? (this.prices[joint] as number) : 0;
      price += least;
      if (least > 0) lastOpened = joint;
    }
    return price;
  }

  /** The joint of a stretch that comes apart most cheaply; of equals the last. */
  private cheapest(first: number, last: number): number {
    let best = last;
    let least = Number.POSITIVE_INFINITY;
    for (let joint = last; joint >= first && least > 0; joint -= 1) {
      const price = this.freed[joint] === 0 ? (this.prices[joint] as number) : 0;
      if (price < least) [best, least] = [joint, price];
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
