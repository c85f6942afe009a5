/** What to change so that a primary comes into the band with both its ends where they must be. */

import type { Header } from '../header/header.ts';
import { suggestLengthOnly } from './kinds/length-only.ts';
import { nearestOf, noMoves } from './offer/no-moves.ts';
import { offerMoves } from './offer/offer-moves.ts';
import type { MoveOutcome } from './outcome.ts';
import { type MoveProblem, type ReadProblem, readMoveProblem } from './problem/move-problem.ts';
import type { MoveOptions } from './question.ts';
import { limitsOf, newSearch, type Search } from './search.ts';
import { runThrough, SearchInSlices, searchThrough } from './search-in-slices.ts';
import { searchMoves } from './search-moves.ts';

/**
 * Moves that bring a primary's length into the band while its end stays in its collector inlet (within closure tolerance
 * and slip), or where it ends now if it has no inlet; least disturbing first, see `ranking/cost.ts` for what counts.
 *
 * Every move offered was applied through `applyEdit` and re-traced: closed, in the band, nothing locked or welded touched,
 * no straight shorter than workable, with figures rounded to what a saw can cut. When the closure is broken beforehand the
 * standing says so, and moves mend it as well. Where the path is not known (a clocking is missing) moves are on length alone
 * and say how far the end shifts at most. `none` says why, how near the search came, and what would have to be freed.
 * Same input, same answer. A primary of 20 pieces takes some 20 ms on a quiet machine; one out of reach with much locked may
 * take ten times that, since what to free is searched for too. `MoveSearch` does the same in slices.
 */
export function suggestMoves(header: Header, primaryId: string, options: MoveOptions = {}): MoveOutcome {
  return searchThrough(new MoveSearch(header, primaryId, options));
}

/** The same search in slices. */
export class MoveSearch extends SearchInSlices<MoveOutcome> {
  readonly #read: ReadProblem;
  readonly #search: Search | null;

  constructor(header: Header, primaryId: string, options: MoveOptions = {}) {
    const read = readMoveProblem(header, primaryId, options);
    const search = read.ok ? openSearch(read.problem) : null;
    super(read.ok ? solve(read.problem, search) : unreadable(read));
    this.#read = read;
    this.#search = search;
  }

  /** The best moves until now, marked as not exhausted. */
  protected untilNow(): MoveOutcome {
    const { problem } = this.#read as Extract<ReadProblem, { readonly ok: true }>;
    const moves = this.#search === null ? [] : runThrough(offerMoves(this.#search)).moves;
    const before = problem.standing;
    if (moves.length > 0) return { kind: 'found', before, moves, isExhausted: false };
    return { kind: 'none', before, reason: { kind: 'notThrough' }, nearest: nearestOf(this.#search), toFree: null };
  }

  /** The clearances of the best moves until now take longest. */
  protected override *lastSteps(): Generator<void, void> {
    if (this.#search !== null) yield* offerMoves(this.#search);
  }
}

function openSearch(problem: MoveProblem): Search | null {
  return problem.ends === null ? null : newSearch(problem, problem.ends, limitsOf(problem));
}

/** The whole of it for a problem that was read. */
export function* solve(problem: MoveProblem, search = openSearch(problem)): Generator<void, MoveOutcome> {
  const { standing } = problem;
  if (isDone(problem)) {
    return { kind: 'none', before: standing, reason: { kind: 'nothingToDo' }, nearest: null, toFree: null };
  }
  if (search === null) return suggestLengthOnly(problem);
  // Where a gap is kept every candidate is held against it as it comes.
  if ((problem.options.clearanceKeptMm ?? null) !== null) yield* search.judge.gapsBefore();
  yield* searchMoves(search);
  const offer = yield* offerMoves(search);
  if (offer.moves.length > 0) return { kind: 'found', before: standing, moves: offer.moves, isExhausted: true };
  return yield* noMoves(search);
}

// biome-ignore lint/correctness/useYield: there is nothing to look for, so nothing to pause in
function* unreadable({ standing, reason }: Extract<ReadProblem, { readonly ok: false }>) {
  return { kind: 'none', before: standing, reason, nearest: null, toFree: null } as const;
}

function isDone({ match, primary, standing, ends }: MoveProblem): boolean {
  const own = match.primaries.find(({ primaryId }) => primaryId === primary.id);
  return own?.side === 'inBand' && (standing.isClosed || ends === null);
}
