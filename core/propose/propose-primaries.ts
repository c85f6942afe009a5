/** What a primary should be, from its port to its inlet. */

import type { Header } from '../header/header.ts';
import { SearchInSlices, searchThrough } from '../moves/search-in-slices.ts';
import { BestProposals } from './offer/best-proposals.ts';
import { buildProposal } from './offer/build-proposal.ts';
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

/** The same search in slices. */
export class ProposalSearch extends SearchInSlices<ProposalOutcome> {
  readonly #search: Search | null;

  constructor(header: Header, primaryId: string, options: ProposeOptions = {}) {
    const read = readProposeProblem(header, primaryId, options);
    const search = read.ok ? openSearch(read.problem) : null;
    super(solve(read, search));
    this.#search = search;
  }

  /** The best until now, marked as not exhausted. */
  protected untilNow(): ProposalOutcome {
    const proposals = this.#search === null ? [] : proposalsOf(this.#search);
    if (proposals.length > 0) return { kind: 'found', proposals, isExhausted: false };
    return { kind: 'none', reason: { kind: 'notThrough' }, nearest: [] };
  }
}

function* solve(read: ReadProposeProblem, search: Search | null): Generator<void, ProposalOutcome> {
  if (!read.ok) return { kind: 'none', reason: read.reason, nearest: [] };
  if (search === null) return { kind: 'none', reason: { kind: 'notThrough' }, nearest: [] };
  yield* searchProposals(search);
  const proposals: ProposedPrimary[] = [];
  for (const candidate of search.best.found) {
    const proposal = buildProposal(search.problem, candidate, search.surroundings);
    if (proposal !== null) proposals.push(proposal);
    yield;
  }
  if (proposals.length > 0) return { kind: 'found', proposals, isExhausted: true };
  const leastMm = leastWelded(search.problem);
  yield;
  const nearest = yield* rangesNear(search.problem, leastMm);
  return { kind: 'none', reason: reasonOf(search, leastMm), nearest };
}

function proposalsOf({ problem, best, surroundings }: Search): readonly ProposedPrimary[] {
  return best.found.flatMap((candidate) => buildProposal(problem, candidate, surroundings) ?? []);
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
