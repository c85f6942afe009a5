/** The moves that are offered: the best of a search, with the clearance that they leave. */

import type { Move } from '../move.ts';
import type { Candidate } from '../ranking/candidate.ts';
import { compareCosts } from '../ranking/cost.ts';
import type { Search } from '../search.ts';
import type { Offered } from './judge.ts';

export interface Offer {
  readonly moves: readonly Move[];
  /** Candidates behind the moves, in the same order. */
  readonly candidates: readonly Candidate[];
}

/** Cheapest first; of those that cost the same the one with more room. Pauses often, for clearances take long. */
export function* offerMoves({ best, limits, judge }: Search): Generator<void, Offer> {
  const offered: Offered[] = [];
  for (const { candidate } of best.found) {
    const one = offered.length < limits.most ? yield* judge.clearest(candidate) : null;
    if (one !== null) offered.push(one);
  }
  offered.sort((a, b) => compareCosts(a.candidate.cost, b.candidate.cost));
  return { moves: offered.map(({ move }) => move), candidates: offered.map(({ candidate }) => candidate) };
}
