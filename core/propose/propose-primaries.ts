/** What a primary should be, from its port to its inlet. */

import type { Header } from '../header/header.ts';
import { SearchInSlices, searchThrough } from '../moves/search-in-slices.ts';
import { BestProposals } from './offer/best-proposals.ts';
import { buildProposal } from './offer/build-proposal.ts';
import type { Candidate } from './offer/candidate.ts';
import type { NoProposalReason, ProposalOutcome, ProposedPrimary } from './outcome.ts';
import { type ProposeProblem, type ReadProposeProblem, readProposeProblem } from './problem/propose-problem.ts';
import type { ProposeOptions } from './question.ts';
import { leastWelded, rangesNear } from './reach/length-ranges.ts';
import { ProposeSearch } from './search.ts';
import { searchProposals } from './search-proposals.ts';

/**
 * Whole primaries from a port to an inlet, or from the end of what is tacked, welded or locked: of the wanted length, from the CLRs at hand, clear of other tubes,
 * obstacles and themselves; best first, see `offer/candidate.ts` for what counts.
 *
 * Every proposal was applied through `applyEdit`, measured and traced anew: closed within the header's closure, its length in the band, no
 * bend over 180 degrees, no straight under the header's shortest, the gap kept except where the port and the inlet themselves lie nearer; figures are such as a
 * saw and an angle gauge can do. `none` says why, and which lengths there are with two bends nearest to the one wanted.
 * Two bends are looked through along the whole of their family; three and four come from starts that are the same every time, so
 * that of these one may be missed. Same input, same answer. `ProposalSearch` does the same in slices.
 */
export function proposePrimaries(header: Header, primaryId: string, options: ProposeOptions = {}): ProposalOutcome {
  return searchThrough(new ProposalSearch(header, primaryId, options));
}

const DEFAULT_MOST = 6;

function openSearch(problem: ProposeProblem): ProposeSearch<BestProposals> {
  const most = Math.max(1, problem.options.most ?? DEFAULT_MOST);
  return new ProposeSearch(problem, ({ gapLeft }) => new BestProposals(most, gapLeft));
}

type Search = ProposeSearch<BestProposals>;

/** The same search in slices; the first idea can be shown as soon as it is there, better ones as they come. */
export class ProposalSearch extends SearchInSlices<ProposalOutcome> {
  readonly #ideas: Ideas | null;

  constructor(header: Header, primaryId: string, options: ProposeOptions = {}) {
    const read = readProposeProblem(header, primaryId, options);
    const ideas = read.ok ? new Ideas(openSearch(read.problem)) : null;
    super(ideas === null ? refused(read) : solve(ideas));
    this.#ideas = ideas;
  }

  override get news(): number {
    return this.#ideas?.news ?? 0;
  }

  /** The best that have been proven until now, marked as not exhausted. */
  protected untilNow(): ProposalOutcome {
    const proposals = this.#ideas?.proven() ?? [];
    if (proposals.length > 0) return { kind: 'found', proposals, isExhausted: false };
    return { kind: 'none', reason: { kind: 'notThrough' }, nearest: [] };
  }
}

/** The best candidates made into proposals, each once. */
class Ideas {
  readonly search: Search;
  /** How many proposals have been made. */
  news = 0;
  readonly #made = new Map<Candidate, ProposedPrimary | null>();

  constructor(search: Search) {
    this.search = search;
  }

  /** Makes a proposal of each of the best that is not one yet, with a pause after each. */
  *make(): Generator<void, void> {
    const { problem, best, surroundings } = this.search;
    for (const candidate of best.found) {
      if (this.#made.has(candidate)) continue;
      const proposal = buildProposal(problem, candidate, surroundings);
      this.#made.set(candidate, proposal);
      if (proposal !== null) this.news += 1;
      yield;
    }
  }

  /** Best first; of the best candidates those that have been made and stood up. */
  proven(): readonly ProposedPrimary[] {
    return this.search.best.found.flatMap((candidate) => this.#made.get(candidate) ?? []);
  }
}

/** Between two looks at whether there is something better to show; making a proposal takes as long as many steps of the search. */
const STEPS_A_LOOK = 64;

// biome-ignore lint/correctness/useYield: there is nothing to look for, so nothing to pause in
function* refused(read: ReadProposeProblem): Generator<void, ProposalOutcome> {
  return { kind: 'none', reason: read.ok ? { kind: 'notThrough' } : read.reason, nearest: [] };
}

function* solve(ideas: Ideas): Generator<void, ProposalOutcome> {
  const { search } = ideas;
  let steps = 0;
  for (const _ of searchProposals(search)) {
    yield;
    steps += 1;
    const isFirst = ideas.news === 0 && search.best.count > 0;
    if (isFirst || steps % STEPS_A_LOOK === 0) yield* ideas.make();
  }
  yield* ideas.make();
  const proposals = ideas.proven();
  if (proposals.length > 0) return { kind: 'found', proposals, isExhausted: true };
  const leastMm = yield* leastWelded(search.problem);
  const nearest = yield* rangesNear(search.problem, leastMm);
  return { kind: 'none', reason: reasonOf(search, leastMm), nearest };
}

function reasonOf({ problem, surroundings, hasLostToRounding }: Search, leastMm: number | null): NoProposalReason {
  const { window, gapKeptMm, mostBends } = problem;
  if (surroundings.tightestBestMm !== null && gapKeptMm !== null) {
    return { kind: 'tooTight', bestMm: surroundings.tightestBestMm, keptMm: gapKeptMm };
  }
  if (hasLostToRounding) return { kind: 'rounding' };
  if (window !== null && leastMm !== null && window.highMm < leastMm) {
    return { kind: 'tooShort', wantedMm: window.aimMm, leastMm };
  }
  return { kind: 'outOfReach', mostBends, isLengthWanted: window !== null };
}
