/** The best moves found so far, and how good the next one has to be. */

import type { MoveChange } from '../move.ts';
import type { MoveKind } from '../question.ts';
import type { Candidate } from './candidate.ts';
import { type CostFigures, compareCosts, keyParts, largestKeyWith } from './cost.ts';
import { isLacking } from './stock-needs.ts';

export interface KeptMoves {
  /** So many moves are wanted; twice as many are kept, since some fall away when they are proven. */
  readonly most: number;
  readonly mostJoints: number;
  /** Held pieces may be touched, at the highest price, and then as many joints as it takes. */
  readonly mayTouchHeld: boolean;
  readonly kinds: readonly MoveKind[];
}

export type Newcomer = Omit<Candidate, 'cost' | 'signature'> & {
  /** From the length aimed at. */
  readonly offMm: number;
};

export class BestMoves {
  private readonly kept: KeptMoves;
  private readonly offTargetPrice: number;
  private readonly hardKey: number;
  private candidates: Candidate[] = [];

  constructor(kept: KeptMoves, offTargetPrice: number) {
    this.kept = kept;
    this.offTargetPrice = offTargetPrice;
    this.hardKey = kept.mayTouchHeld ? Number.POSITIVE_INFINITY : largestKeyWith(kept.mostJoints);
  }

  /** Cheapest first. */
  get found(): readonly Candidate[] {
    return this.candidates;
  }

  /** No set of changes with a larger key can still get in. */
  readonly keyLimit = (): number => {
    const last = this.candidates[this.kept.most - 1];
    return last === undefined ? this.hardKey : Math.min(this.hardKey, last.key);
  };

  isWorthWhile(key: number): boolean {
    return key <= this.keyLimit();
  }

  /** Takes a move in if it is good enough. */
  take({ offMm, ...move }: Newcomer): void {
    if (!this.kept.kinds.includes(move.kind) || !this.isWorthWhile(move.key) || this.isPadded(move)) return;
    const cost: CostFigures = {
      ...keyParts(move.key),
      tubeMm: move.tubeAddedMm + this.offTargetPrice * offMm,
      lacking: move.needs.filter(isLacking).length,
      offMm,
      tightMm: 0,
    };
    const signature = `${move.kind} ${move.slots.join()} ${move.changes.map(clrMark).join()}`;
    const rival = this.candidates.findIndex((other) => other.signature === signature);
    // The same things changed to a little other figures are one move: the better is kept.
    if (rival >= 0 && compareCosts((this.candidates[rival] as Candidate).cost, cost) <= 0) return;
    if (rival >= 0) this.candidates.splice(rival, 1);
    this.candidates.push({ ...move, cost, signature });
    this.candidates.sort((a, b) => compareCosts(a.cost, b.cost));
    this.candidates.length = Math.min(this.candidates.length, 2 * this.kept.most);
  }

  /** More changes on top of a move that works without them are no other move. */
  private isPadded({ key, slots }: Pick<Newcomer, 'key' | 'slots'>): boolean {
    return this.candidates.some((other) => other.key < key && other.slots.every((slot) => slots.includes(slot)));
  }
}

function clrMark(change: MoveChange): string {
  if (change.kind === 'swap') return `${change.toClr.value}${change.toClr.unit}`;
  return change.kind === 'kick' || change.kind === 'bendPair' ? `${change.clr.value}${change.clr.unit}` : change.kind;
}
