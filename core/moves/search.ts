/** What one search works with: the problem, what the end must meet, the limits, the prices, and what was found so far. */

import { Judge } from './offer/judge.ts';
import type { FixedEnds } from './problem/fixed-ends.ts';
import type { MoveProblem } from './problem/move-problem.ts';
import { MOVE_KINDS } from './question.ts';
import { BestMoves, type KeptMoves } from './ranking/best-moves.ts';
import { CostTally, type Touch } from './ranking/cost-tally.ts';
import { type Aim, aimAt, type Miss } from './turning/miss.ts';

export interface Search {
  readonly problem: MoveProblem;
  readonly aim: Aim;
  readonly limits: KeptMoves;
  /** For walks through sets of changes; every walk leaves it as it was. */
  readonly tally: CostTally;
  /** For the price of a set by itself, whatever the walk in hand holds. */
  readonly pricer: CostTally;
  readonly best: BestMoves;
  readonly judge: Judge;
  readonly seen: Seen;
}

/** What a search came by on its way; said when it finds nothing. */
export class Seen {
  /** The nearest to the aim without meeting it. */
  nearest: Miss | null = null;
  /** A move was right but no rounding of it was. */
  hasLostToRounding = false;

  note(miss: Miss): void {
    const size = ({ gapMm, tiltDeg, outsideMm }: Miss) => gapMm + outsideMm + 5 * tiltDeg;
    if (this.nearest === null || size(miss) < size(this.nearest)) this.nearest = miss;
  }
}

const DEFAULT_MOST_MOVES = 6;

/** The limits that the options set. */
export function limitsOf({ options }: MoveProblem): KeptMoves {
  return {
    mayTouchHeld: false,
    mostJoints: options.maxJoints ?? Number.POSITIVE_INFINITY,
    most: Math.max(1, options.maxMoves ?? DEFAULT_MOST_MOVES),
    kinds: options.kinds ?? MOVE_KINDS,
    prices: options.prices ?? null,
  };
}

export function newSearch(problem: MoveProblem, ends: FixedEnds, limits: KeptMoves): Search {
  const judge = new Judge(problem);
  return {
    problem,
    judge,
    aim: aimAt(ends, problem.window),
    limits,
    tally: new CostTally(problem.jointStates),
    pricer: new CostTally(problem.jointStates),
    best: new BestMoves(limits, problem.closeness.offTarget, judge),
    seen: new Seen(),
  };
}

export function keyOf({ pricer }: Search, touches: readonly Touch[]): number {
  return pricer.keyOf(touches);
}
