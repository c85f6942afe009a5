/** What to change so that a primary comes into the band with both its ends where they must be. */

import type { Header } from '../header/header.ts';
import { suggestLengthOnly } from './kinds/length-only.ts';
import type { MoveOptions, MoveOutcome } from './move.ts';
import { type MoveProblem, readMoveProblem } from './problem/move-problem.ts';
import { noMoves } from './offer/no-moves.ts';
import { offerMoves } from './offer/offer-moves.ts';
import { poolLimits, searchMoves } from './search-moves.ts';

/**
 * Moves that bring a primary's length into the band while its end stays in its collector inlet (within closure tolerance
 * and slip), or where it ends now if it has no inlet; least disturbing first, see `move-cost.ts` for what counts.
 *
 * Every move offered was applied through `applyEdit` and re-traced: closed, in the band, nothing locked or welded touched,
 * no straight shorter than workable, with figures rounded to what a saw can cut. When the closure is broken beforehand the
 * standing says so, and moves mend it as well. Where the path is not known (a clocking is missing) moves are on length alone
 * and say how far the end shifts at most. `none` says why, how near the search came, and what would have to be freed.
 * Same input, same answer, but for `shouldStop`. A primary of 20 pieces takes some 20 ms on a quiet machine; one out of reach with
 * much locked may take ten times that, since what to free is searched for too.
 */
export function suggestMoves(header: Header, primaryId: string, options: MoveOptions = {}): MoveOutcome {
  const read = readMoveProblem(header, primaryId, options);
  if (!read.ok) return { kind: 'none', before: read.standing, reason: read.reason, nearest: null, toFree: null };
  const { problem } = read;
  const { standing, ends } = problem;
  if (isDone(problem)) {
    return { kind: 'none', before: standing, reason: { kind: 'nothingToDo' }, nearest: null, toFree: null };
  }
  if (ends === null) return suggestLengthOnly(problem);
  const pool = searchMoves(problem, ends, poolLimits(problem));
  const offer = offerMoves(problem, pool);
  if (pool.isStopped) return { kind: 'stopped', before: standing, moves: offer.moves };
  if (offer.moves.length > 0) return { kind: 'found', before: standing, moves: offer.moves };
  return noMoves({ problem, ends, pool }, offer);
}

function isDone({ match, primary, standing, ends }: MoveProblem): boolean {
  const own = match.primaries.find(({ primaryId }) => primaryId === primary.id);
  return own?.verdict === 'inBand' && (standing.isClosed || ends === null);
}
