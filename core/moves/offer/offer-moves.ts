/** Turns the best candidates into moves: proven on the header itself, with the clearance that they leave. */

import { mmOf } from '../../units/length.ts';
import { kickSides } from '../kinds/kick.ts';
import type { Move } from '../move.ts';
import type { MoveProblem } from '../problem/move-problem.ts';
import type { Candidate } from '../ranking/candidate.ts';
import { type CostFigures, compareCosts } from '../ranking/cost.ts';
import type { Search } from '../search.ts';
import { buildMove } from './build-move.ts';
import { freshIds } from './fresh-ids.ts';
import { leastClearanceMm, type Neighbours, neighboursOf } from './neighbours.ts';

export interface Offer {
  readonly moves: readonly Move[];
  /** Candidates behind the moves, in the same order. */
  readonly candidates: readonly Candidate[];
  /** The largest least clearance of the moves that were too tight; null when none was. */
  readonly tightestBestMm: number | null;
}

interface Offered {
  readonly move: Move;
  readonly candidate: Candidate;
  readonly cost: CostFigures;
}

/** The best moves of a search, cheapest first; those that come too near to something are left out. */
export function offerMoves({ problem, best, limits }: Search): Offer {
  const offered: Offered[] = [];
  const wantedMm = mmOf(problem.header.settings.wantedGap);
  const keptMm = Math.max(wantedMm, problem.options.clearanceKeptMm ?? wantedMm);
  const neighbours = neighboursOf(problem.header, problem.primary.id, keptMm);
  const beforeMm = leastClearanceMm(neighbours, problem.primary);
  let tightestBestMm: number | null = null;
  for (const candidate of best.found) {
    if (offered.length >= limits.most) break;
    const move = clearestMove(problem, candidate, neighbours);
    if (move === null) continue;
    const afterMm = move.clearanceAfterMm;
    if (isTooTight(problem, beforeMm, afterMm)) {
      tightestBestMm = Math.max(tightestBestMm ?? Number.NEGATIVE_INFINITY, afterMm ?? 0);
      continue;
    }
    const tightMm = Math.max(0, wantedMm - (afterMm ?? Number.POSITIVE_INFINITY));
    const cost = { ...candidate.cost, tightMm };
    offered.push({ move: { ...move, clearanceBeforeMm: beforeMm }, candidate, cost });
  }
  offered.sort((a, b) => compareCosts(a.cost, b.cost));
  return {
    moves: offered.map(({ move }) => move),
    candidates: offered.map(({ candidate }) => candidate),
    tightestBestMm,
  };
}

/** A kick goes to the side with most room; other moves have no choice. Null when the proof fails. */
function clearestMove(problem: MoveProblem, candidate: Candidate, neighbours: Neighbours): Move | null {
  const [only] = candidate.changes;
  const choices = only?.kind === 'kick' ? kickSides(only).map((kick) => [kick]) : [candidate.changes];
  let best: Move | null = null;
  for (const changes of choices) {
    const built = buildMove(problem, { ...candidate, changes }, freshIds(problem));
    if (built === null) continue;
    const clearanceAfterMm = leastClearanceMm(neighbours, built.proof.primary);
    const isClearer =
      best === null ||
      (clearanceAfterMm ?? Number.POSITIVE_INFINITY) > (best.clearanceAfterMm ?? Number.POSITIVE_INFINITY);
    if (isClearer) best = { ...built.move, clearanceAfterMm };
  }
  return best;
}

function isTooTight({ options }: MoveProblem, beforeMm: number | null, afterMm: number | null): boolean {
  const keptMm = options.clearanceKeptMm ?? null;
  if (keptMm === null || afterMm === null || afterMm >= keptMm - 1e-6) return false;
  // What was as near before is not this move's doing.
  return beforeMm === null || afterMm < beforeMm - 1e-6;
}
