/** The best moves found so far, and how good the next one has to be. */

import type { Judged } from '../offer/judge.ts';
import type { MoveKind } from '../question.ts';
import { runThrough } from '../search-in-slices.ts';
import { type Candidate, ideaOf } from './candidate.ts';
import { BEND_STEP, type CostFigures, compareCosts, keyParts, largestKeyWith } from './cost.ts';
import { keyLimitAt, leastPriceOf, priceOf, type ShopPrices } from './shop-prices.ts';
import { isLacking } from './stock-needs.ts';

export interface KeptMoves {
  /** So many moves are wanted; twice as many are kept, since some fall away when a cheaper one comes that they only add to. */
  readonly most: number;
  readonly mostJoints: number;
  /** Held pieces may be touched, at the highest price, and then as many joints as it takes. */
  readonly mayTouchHeld: boolean;
  readonly kinds: readonly MoveKind[];
  /** Null: in the order of `cost.ts`. */
  readonly prices: ShopPrices | null;
}

export type Newcomer = Omit<Candidate, 'cost' | 'idea'> & {
  /** From the length aimed at. */
  readonly offMm: number;
};

/** How candidates are judged. */
export interface Judging {
  /** It takes long, so that newcomers wait until `settle`. */
  readonly keepsGap: boolean;
  /** Null: the move does not stand up, or comes too near to something. */
  judge(candidate: Candidate): Generator<void, Judged | null>;
}

export class BestMoves {
  private readonly kept: KeptMoves;
  private readonly offTargetPrice: number;
  private readonly hardKey: number;
  private readonly judge: Judging;
  private moves: Judged[] = [];
  /** Taken in once there is time to judge them. */
  private waiting: Newcomer[] = [];

  constructor(kept: KeptMoves, offTargetPrice: number, judge: Judging) {
    this.kept = kept;
    this.offTargetPrice = offTargetPrice;
    this.judge = judge;
    this.hardKey = kept.mayTouchHeld ? Number.POSITIVE_INFINITY : largestKeyWith(kept.mostJoints);
  }

  /** Cheapest first. */
  get found(): readonly Judged[] {
    return this.moves;
  }

  /** No set of changes with a larger key can still get in, unless it adds bends and makes few joints. */
  readonly keyLimit = (): number => this.keyLimitWith(0);

  /** The same for sets that add one bend. */
  readonly keyLimitOfBend = (): number => this.keyLimitWith(1);

  private keyLimitWith(bends: number): number {
    const { prices, most } = this.kept;
    const hardKey = bends * BEND_STEP + this.hardKey;
    const last = this.moves[most - 1]?.candidate;
    if (last === undefined) return hardKey;
    return Math.min(hardKey, prices === null ? last.key : keyLimitAt(prices, last.cost.price, bends));
  }

  /** Key of the best, or the largest that its price allows; infinite before there is one. */
  leastKey(): number {
    const { prices } = this.kept;
    const first = this.moves[0]?.candidate;
    if (first === undefined) return Number.POSITIVE_INFINITY;
    return prices === null ? first.key : keyLimitAt(prices, first.cost.price, 0);
  }

  isWorthWhile(key: number): boolean {
    const { prices, most, mayTouchHeld, mostJoints } = this.kept;
    if (prices === null && (key < BEND_STEP || mayTouchHeld)) return key <= this.keyLimit();
    const last = this.moves[most - 1]?.candidate;
    const { held, joints } = keyParts(key);
    if (joints > mostJoints || (held > 0 && !mayTouchHeld)) return false;
    if (last === undefined) return true;
    return prices === null ? key <= last.key : leastPriceOf(prices, key) <= last.cost.price;
  }

  /** Whether a move with this key and about so much tube can get in: asked before it is rounded, which may save a little tube. */
  mayEnter(key: number, tubeMm: number): boolean {
    const last = this.moves[this.kept.most - 1]?.candidate;
    if (last === undefined || this.kept.prices !== null || key < last.key) return this.isWorthWhile(key);
    return key === last.key && tubeMm <= last.cost.tubeMm + ROUNDING_MM;
  }

  /** Takes a move in if it is good enough; where judging takes long, at the next `settle`. */
  take(move: Newcomer): void {
    if (this.judge.keepsGap) this.waiting.push(move);
    else runThrough(this.enter(move));
  }

  /** Whether anything waits to be judged. */
  get hasWaiting(): boolean {
    return this.waiting.length > 0;
  }

  /** Judges what waits, with pauses. */
  *settle(): Generator<void, void> {
    const { waiting } = this;
    this.waiting = [];
    for (const move of waiting) yield* this.enter(move);
  }

  private *enter({ offMm, ...move }: Newcomer): Generator<void, void> {
    if (!this.kept.kinds.includes(move.kind) || !this.isWorthWhile(move.key)) return;
    const parts = { ...keyParts(move.key), lacking: move.needs.filter(isLacking).length };
    const cost: CostFigures = {
      ...parts,
      price: priceOf(this.kept.prices, { ...parts, tubeAddedMm: move.tubeAddedMm }),
      tubeMm: move.tubeAddedMm + this.offTargetPrice * offMm,
      offMm,
      tightMm: 0,
    };
    // More changes on top of a move that works without them are no other move.
    if (this.moves.some(({ candidate }) => isPadded({ ...move, cost }, candidate))) return;
    const idea = ideaOf(move);
    // One idea carried out in different figures is one move: the best of them is kept.
    const rival = this.moves.find(({ candidate }) => candidate.idea === idea);
    if (rival !== undefined && compareCosts(rival.candidate.cost, cost) <= 0) return;
    const judged = yield* this.judge.judge({ ...move, cost, idea });
    if (judged === null) return;
    this.moves = this.moves.filter((other) => other !== rival && !isPadded(other.candidate, { ...move, cost }));
    this.moves.push(judged);
    this.moves.sort((a, b) => compareCosts(a.candidate.cost, b.candidate.cost));
    this.moves.length = Math.min(this.moves.length, 2 * this.kept.most);
  }
}

/** What rounding to a saw may change about the tube that a move takes, and about the length that it comes to. */
const ROUNDING_MM = 8;

type Sized = Pick<Candidate, 'key' | 'slots' | 'cost'>;

/** Whether a move changes what the other one changes, and more. */
function isPadded(move: Sized, other: Sized): boolean {
  const isLess = other.cost.price < move.cost.price || (other.cost.price === move.cost.price && other.key < move.key);
  return isLess && other.slots.every((slot) => move.slots.includes(slot));
}
