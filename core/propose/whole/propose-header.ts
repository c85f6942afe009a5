/** All primaries of a header at one length, clear of each other. */

import type { Header } from '../../header/header.ts';
import { fixedRandom } from '../../moves/kinds/samples.ts';
import { SearchInSlices, searchThrough } from '../../moves/search-in-slices.ts';
import { compareHeaders } from './compare-headers.ts';
import type { HeaderProgress, HeaderProposal, HeaderProposalOutcome, HeaderProposeOptions } from './header-outcome.ts';
import { type HeaderProposeProblem, lengthsToTry, readHeaderProblem } from './header-problem.ts';
import { proveSet } from './prove-set.ts';
import { type Choice, Together } from './put-together.ts';
import { type PoolSize, poolOf } from './tube-pool.ts';

/** First few, then more: most headers need no more than the first. */
const SIZES: readonly PoolSize[] = [
  { three: 0, four: 0 },
  { three: 60, four: 0 },
  { three: 240, four: 120 },
];
const MOST_BENDS = 4;
/** Tubes with fewer are not gathered. */
const LEAST_BENDS = 2;

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
      : { kind: 'found', proposal: best, isExhausted: false };
  }
}

const AT_START: HeaderProgress = { step: 'gathering', lengthMm: null, at: 1, lengths: 1, gathered: 0, primaries: 0 };

/** What can be told of a search that is on. */
class Shown {
  news = 0;
  best: HeaderProposal | null = null;
  progress = AT_START;

  tell(change: Partial<HeaderProgress>): void {
    this.progress = { ...this.progress, ...change };
    this.news += 1;
  }

  /** Keeps the better one. */
  offer(proposal: HeaderProposal): void {
    if (this.best !== null && compareHeaders(proposal, this.best) >= 0) return;
    this.best = proposal;
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
  let missingId: string | null = lengths.length === 0 ? first.primaryId : null;
  for (const [index, lengthMm] of lengths.entries()) {
    shown.tell({ lengthMm, at: index + 1, lengths: lengths.length, primaries: problem.placings.length });
    // Hardly any header takes fewer.
    if (shown.best !== null && shown.best.bends <= LEAST_BENDS * problem.placings.length) break;
    const mostBends: number = shown.best === null ? MOST_BENDS * problem.placings.length : shown.best.bends - 1;
    const missing = yield* searchLength({ problem, options, shown }, lengthMm, mostBends);
    missingId = missing ?? missingId;
  }
  if (shown.best !== null) return { kind: 'found', proposal: shown.best, isExhausted: true };
  if (missingId !== null) {
    const mostBends = Math.min(MOST_BENDS, options.mostBends ?? MOST_BENDS);
    const reason = { kind: 'outOfReach', mostBends, isLengthWanted: lengths.length > 0 } as const;
    return { kind: 'none', reason: { kind: 'onePrimary', primaryId: missingId, reason } };
  }
  return { kind: 'none', reason: { kind: 'together' } };
}

/** So much is kept between exact tubes beyond the gap wanted, for rounding moves them a little. */
const ROUNDING_MM = 0.7;
/** Sets that are rounded and proven before more tubes are gathered. */
const MOST_TRIALS = 40;
/** Sets with equally few bends that are held against the first one. */
const MORE_SETS = 4;

interface Searching {
  readonly problem: HeaderProposeProblem;
  readonly options: HeaderProposeOptions;
  readonly shown: Shown;
}

/** Offers what it finds as it finds it. Returns the primary that has no tube even by itself; null where each has one. */
function* searchLength(searching: Searching, lengthMm: number, mostBends: number): Generator<void, string | null> {
  const { problem, options, shown } = searching;
  let missingId: string | null = null;
  const [first] = problem.placings.flat();
  const gapMm = first?.at(lengthMm)?.gapKeptMm ?? null;
  const together = new Together(gapMm === null ? null : gapMm + ROUNDING_MM);
  let count = 0;
  const numbers = () => {
    count += 1;
    return count;
  };
  for (const size of sizesWithin(mostBends - LEAST_BENDS * problem.placings.length)) {
    const pools = yield* poolsOf(searching, lengthMm, size, numbers);
    missingId = problem.placings[pools.findIndex(({ length }) => length === 0)]?.[0]?.primaryId ?? null;
    for (let trial = 0; trial < MOST_TRIALS; trial += 1) {
      shown.tell({ step: 'fitting' });
      const choices = yield* together.fewestBends(pools, mostBends);
      if (choices === null) break;
      shown.tell({ step: 'proving' });
      const proved = yield* proveSet(problem, options, choices, lengthMm);
      if (proved.kind === 'found') {
        shown.offer(proved.proposal);
        yield* lookAtMore(searching, { together, pools, bends: proved.proposal.bends, lengthMm });
        return null;
      }
      if (proved.kind === 'tooNear') together.keepApart(proved.one, proved.other);
      else together.leaveOut(proved.at);
    }
  }
  return missingId;
}

/** The sizes that can lead to a set with no more than so many bends beyond two for each: others would be gathered and fitted for nothing. */
function sizesWithin(moreBends: number): readonly PoolSize[] {
  return SIZES.filter(({ three }) => three === 0 || moreBends > 0).map(({ three, four }) => ({
    three,
    four: moreBends > 1 ? four : 0,
  }));
}

interface Others {
  readonly together: Together;
  readonly pools: readonly (readonly Choice[])[];
  readonly bends: number;
  readonly lengthMm: number;
}

/** Offers a few other sets with no more bends. */
function* lookAtMore({ problem, options, shown }: Searching, others: Others): Generator<void, void> {
  const { together, pools, bends, lengthMm } = others;
  const random = fixedRandom();
  for (let set = 0; set < MORE_SETS; set += 1) {
    const choices = yield* together.another(pools, bends, random);
    if (choices === null) return;
    const proved = yield* proveSet(problem, options, choices, lengthMm);
    if (proved.kind === 'found') shown.offer(proved.proposal);
  }
}

/** By primary, those with the fewest bends first. */
function* poolsOf(
  { problem: { placings }, shown }: Searching,
  lengthMm: number,
  size: PoolSize,
  numbers: () => number,
): Generator<void, readonly (readonly Choice[])[]> {
  const pools: (readonly Choice[])[] = [];
  for (const some of placings) {
    shown.tell({ step: 'gathering', gathered: pools.length });
    const pool: Choice[] = [];
    for (const { inletId, collectorId, at } of some) {
      const problem = at(lengthMm);
      if (problem === null) continue;
      for (const tube of yield* poolOf(problem, collectorId, size, numbers)) pool.push({ tube, inletId });
    }
    pools.push(pool.sort((a, b) => a.tube.bends - b.tube.bends));
  }
  shown.tell({ gathered: pools.length });
  return pools;
}
