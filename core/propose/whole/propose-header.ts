/** All primaries of a header at one length, clear of each other. */

import type { Header } from '../../header/header.ts';
import { SearchInSlices, searchThrough } from '../../moves/search-in-slices.ts';
import type { NoProposalReason } from '../outcome.ts';
import { compareHeaders } from './compare-headers.ts';
import type { HeaderProgress, HeaderProposal, HeaderProposalOutcome, HeaderProposeOptions } from './header-outcome.ts';
import { furtherLengths, type HeaderProposeProblem, lengthsToTry, readHeaderProblem } from './header-problem.ts';
import { type HeaderKeeper, LengthSearch, type Round } from './search-length.ts';

/** First few tubes, then more: most headers need no more than the first. To put few together in many orders takes less time than to gather more. */
const ROUNDS: readonly Round[] = [
  { three: 0, four: 0, orders: 5 },
  { three: 0, four: 0, orders: 24 },
  { three: 60, four: 0, orders: 5 },
  { three: 240, four: 120, orders: 5 },
];
const MOST_BENDS = 4;

/**
 * One tube for every primary that is empty or half built and has a port and an inlet, all at one length, the gap kept between them, to what stands there and to obstacles; pieces that are
 * tacked, welded or locked stay. Of one collector's inlets any primary in hand may take any, unless they are to stay as they are.
 *
 * For each primary and inlet tubes are gathered as for one proposal, those of two bends first; then one is chosen for each so that all go together, with as few bends in all as was
 * found (`put-together.ts`); of a few sets with equally few the best is taken (`compare-headers.ts`). It may miss a set that exists; what it gives was applied and traced anew, each primary in the header with all the others.
 */
export function proposeHeader(header: Header, options: HeaderProposeOptions = {}): HeaderProposalOutcome {
  return searchThrough(new HeaderProposalSearch(header, options));
}

/** The same search in slices: the best set so far can be shown, and how far the search has come. */
export class HeaderProposalSearch extends SearchInSlices<HeaderProposalOutcome> {
  readonly #shown: Shown;

  constructor(header: Header, options: HeaderProposeOptions = {}) {
    const shown = new Shown();
    super(searchHeader({ header, options, shown }));
    this.#shown = shown;
  }

  override get news(): number {
    return this.#shown.news;
  }

  get progress(): HeaderProgress {
    return this.#shown.progress;
  }

  protected untilNow(): HeaderProposalOutcome {
    const { best } = this.#shown;
    return best === null
      ? { kind: 'none', reason: { kind: 'notThrough' } }
      : { kind: 'found', proposal: best.proposal, isExhausted: false };
  }
}

const AT_START: HeaderProgress = { step: 'gathering', lengthMm: null, at: 1, lengths: 1, gathered: 0, primaries: 0 };

interface Best {
  readonly proposal: HeaderProposal;
  /** Of its length among those that are tried. */
  readonly place: number;
}

/** What can be told of a search that is on. */
class Shown implements HeaderKeeper {
  news = 0;
  best: Best | null = null;
  progress = AT_START;

  tell(change: Partial<HeaderProgress>): void {
    this.progress = { ...this.progress, ...change };
    this.news += 1;
  }

  /** Keeps the better one: with fewer bends, or as many at a length that comes before, or else the better of one length. */
  offer(proposal: HeaderProposal, place: number): void {
    const { best } = this;
    const order =
      best === null
        ? -1
        : proposal.bends - best.proposal.bends || place - best.place || compareHeaders(proposal, best.proposal);
    if (order >= 0) return;
    this.best = { proposal, place };
    this.news += 1;
  }
}

interface Asked {
  readonly header: Header;
  readonly options: HeaderProposeOptions;
  readonly shown: Shown;
}

function* searchHeader({ header, options, shown }: Asked): Generator<void, HeaderProposalOutcome> {
  if (header.state === 'finished') return { kind: 'none', reason: { kind: 'headerFinished' } };
  const problem = yield* readHeaderProblem(header, options);
  const [refused] = problem.refused;
  if (refused !== undefined) return { kind: 'none', reason: { kind: 'onePrimary', ...refused } };
  const lengths = lengthsToTry(problem);
  const [first] = problem.placings.flat();
  if (first === undefined) return { kind: 'none', reason: { kind: 'noneToDo' } };
  const searchAt = (lengthMm: number, place: number) => new LengthSearch({ problem, options, shown }, lengthMm, place);
  const searches = lengths.map(searchAt);
  shown.tell({ lengths: lengths.length, primaries: problem.placings.length });
  yield* searchLengths(searches, problem, shown);
  if (shown.best === null && searches.every(({ missing }) => missing === null)) {
    const further = furtherLengths(problem).map((lengthMm, at) => searchAt(lengthMm, lengths.length + at));
    shown.tell({ lengths: lengths.length + further.length });
    yield* searchLengths(further, problem, shown);
  }
  if (shown.best !== null) return { kind: 'found', proposal: shown.best.proposal, isExhausted: true };
  const missing =
    lengths.length === 0
      ? { primaryId: first.primaryId, tight: null }
      : (searches.findLast((search) => search.missing !== null)?.missing ?? null);
  if (missing !== null) {
    const { primaryId, tight } = missing;
    const reason: NoProposalReason =
      tight === null
        ? (tooShortFor(problem, primaryId, lengths) ?? outOfReach(options, lengths.length > 0))
        : { kind: 'tooTight', ...tight };
    return { kind: 'none', reason: { kind: 'onePrimary', primaryId, reason } };
  }
  return { kind: 'none', reason: { kind: 'together' } };
}

function outOfReach({ mostBends = MOST_BENDS }: HeaderProposeOptions, isLengthWanted: boolean): NoProposalReason {
  return { kind: 'outOfReach', mostBends: Math.min(MOST_BENDS, mostBends), isLengthWanted };
}

/** Where every length that was tried is below the least that the primary has with any of its inlets. */
function tooShortFor(
  { placings }: HeaderProposeProblem,
  primaryId: string,
  lengths: readonly number[],
): NoProposalReason | null {
  const own = placings.find(([first]) => first?.primaryId === primaryId) ?? [];
  const leastMm = Math.min(...own.map((placing) => placing.leastMm ?? Number.NEGATIVE_INFINITY));
  const wantedMm = Math.max(...lengths);
  return Number.isFinite(leastMm) && Number.isFinite(wantedMm) && wantedMm < leastMm
    ? { kind: 'tooShort', wantedMm, leastMm }
    : null;
}

/** All lengths with few tubes first, then those without a set with more: another length mostly takes less time than more tubes, and fewer bends. */
function* searchLengths(
  searches: readonly LengthSearch[],
  { placings }: HeaderProposeProblem,
  shown: Shown,
): Generator<void, void> {
  const leastBends = placings.reduce((sum, own) => sum + Math.min(...own.map((placing) => placing.leastBends)), 0);
  for (const round of ROUNDS) {
    for (const search of searches) {
      const mostBends = mostBendsAt(search, placings.length, shown.best);
      const within = roundWithin(round, mostBends - leastBends);
      if (search.hasFound || within === null) continue;
      shown.tell({ lengthMm: search.lengthMm, at: search.place + 1 });
      yield* search.look(within, mostBends);
      if (round === ROUNDS.at(-1)) search.forget();
    }
  }
}

/** So many bends a set may take at this length to be better than the best so far; as many as that where its length comes before and is shorter too. */
function mostBendsAt({ lengthMm, place }: LengthSearch, primaries: number, best: Best | null): number {
  if (best === null) return MOST_BENDS * primaries;
  const isLengthBetter = place < best.place && lengthMm < best.proposal.lengthMm;
  return isLengthBetter ? best.proposal.bends : best.proposal.bends - 1;
}

/** What of a round can lead to a set with no more than so many bends beyond the least of each; null where nothing can that is not in the rounds before. */
function roundWithin(round: Round, moreBends: number): Round | null {
  if (moreBends < 0 || (round.three > 0 && moreBends === 0)) return null;
  return { ...round, four: moreBends > 1 ? round.four : 0 };
}
