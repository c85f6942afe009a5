/** The search for a whole header at one length: tubes gathered, sets of them put together and proven. */

import { fixedRandom } from '../../moves/kinds/samples.ts';
import type { HeaderProgress, HeaderProposal, HeaderProposeOptions } from './header-outcome.ts';
import type { HeaderProposeProblem } from './header-problem.ts';
import { proveSet } from './prove-set.ts';
import { type Choice, Together } from './put-together.ts';
import { type PoolSize, TubePool } from './tube-pool.ts';

/** What a search for a header finds is told to. */
export interface HeaderKeeper {
  readonly tell: (change: Partial<HeaderProgress>) => void;
  /** `place` of the length among those that are tried. */
  readonly offer: (proposal: HeaderProposal, place: number) => void;
}

export interface HeaderSearch {
  readonly problem: HeaderProposeProblem;
  readonly options: HeaderProposeOptions;
  readonly shown: HeaderKeeper;
}

/** How many tubes are gathered, and in how many orders they are put together for one number of bends. */
export interface Round extends PoolSize {
  readonly orders: number;
}

/** So much is kept between exact tubes beyond the gap wanted, for rounding moves them a little. */
const ROUNDING_MM = 0.7;
/** Sets that are rounded and proven before more tubes are gathered. */
const MOST_TRIALS = 40;
/** Sets with equally few bends that are held against the first one. */
const MORE_SETS = 4;

/** A primary that has no tube even by itself. */
export interface MissingTube {
  readonly primaryId: string;
  /** There are some, but the best leaves only so much; null: there are none. */
  readonly tight: { readonly bestMm: number; readonly keptMm: number } | null;
}

interface InletPool {
  readonly inletId: string;
  readonly pool: TubePool;
}

export class LengthSearch {
  readonly lengthMm: number;
  readonly place: number;
  /** A set was found; more tubes are not gathered. */
  hasFound = false;
  /** Null: each has a tube by itself. */
  missing: MissingTube | null = null;
  readonly #search: HeaderSearch;
  readonly #together: Together;
  readonly #byPrimary: InletPool[][] = [];
  /** Place of the primary that had no tube when it was looked last; -1: each had one. */
  #without = -1;
  #count = 0;

  constructor(search: HeaderSearch, lengthMm: number, place: number) {
    this.#search = search;
    this.lengthMm = lengthMm;
    this.place = place;
    const [first] = search.problem.placings.flat();
    const gapMm = first?.at(lengthMm)?.gapKeptMm ?? null;
    this.#together = new Together(gapMm === null ? null : gapMm + ROUNDING_MM);
  }

  /** Gathers the tubes of a round and offers a set of them with no more than so many bends, if it finds one. */
  *look(round: Round, mostBends: number): Generator<void, void> {
    const { problem, options, shown } = this.#search;
    // While one primary has no tube, tubes of the others lead to nothing.
    if (this.#without >= 0) {
      shown.tell({ step: 'gathering', gathered: 0 });
      if ((yield* this.#choicesOf(this.#without, round)).length === 0) return;
    }
    const pools = yield* this.#poolsOf(round);
    this.#without = pools.findIndex(({ length }) => length === 0);
    this.missing = this.#missingOf(this.#without);
    for (let trial = 0; trial < MOST_TRIALS; trial += 1) {
      shown.tell({ step: 'fitting' });
      const choices = yield* this.#together.fewestBends(pools, mostBends, round.orders);
      if (choices === null) return;
      shown.tell({ step: 'proving' });
      const proved = yield* proveSet(problem, options, choices, this.lengthMm);
      if (proved.kind === 'found') {
        this.hasFound = true;
        shown.offer(proved.proposal, this.place);
        yield* this.#lookAtMore(pools, proved.proposal.bends);
        return;
      }
      if (proved.kind === 'tooNear') this.#together.keepApart(proved.one, proved.other);
      else this.#together.leaveOut(proved.at);
    }
  }

  #missingOf(primary: number): MissingTube | null {
    const own = this.#search.problem.placings[primary]?.[0];
    if (own === undefined) return null;
    const gapsMm = this.#inletPools(primary).flatMap(({ pool }) => pool.tightestBestMm ?? []);
    const keptMm = own.at(this.lengthMm)?.gapKeptMm ?? null;
    const tight = gapsMm.length === 0 || keptMm === null ? null : { bestMm: Math.max(...gapsMm), keptMm };
    return { primaryId: own.primaryId, tight };
  }

  /** Offers a few other sets with no more bends. */
  *#lookAtMore(pools: readonly (readonly Choice[])[], bends: number): Generator<void, void> {
    const { problem, options, shown } = this.#search;
    const random = fixedRandom();
    for (let set = 0; set < MORE_SETS; set += 1) {
      const choices = yield* this.#together.another(pools, bends, random);
      if (choices === null) return;
      const proved = yield* proveSet(problem, options, choices, this.lengthMm);
      if (proved.kind === 'found') shown.offer(proved.proposal, this.place);
    }
  }

  /** By primary, those with the fewest bends first. */
  *#poolsOf(size: PoolSize): Generator<void, readonly (readonly Choice[])[]> {
    const { problem, shown } = this.#search;
    const pools: (readonly Choice[])[] = [];
    for (const [primary] of problem.placings.entries()) {
      shown.tell({ step: 'gathering', gathered: pools.length });
      pools.push(yield* this.#choicesOf(primary, size));
    }
    shown.tell({ gathered: pools.length });
    return pools;
  }

  *#choicesOf(primary: number, size: PoolSize): Generator<void, readonly Choice[]> {
    const choices: Choice[] = [];
    for (const { inletId, pool } of this.#inletPools(primary)) {
      for (const tube of yield* pool.of(size)) choices.push({ tube, inletId });
    }
    return choices.sort((a, b) => a.tube.bends - b.tube.bends);
  }

  #inletPools(primary: number): readonly InletPool[] {
    this.#byPrimary[primary] ??= (this.#search.problem.placings[primary] ?? []).flatMap(
      ({ inletId, collectorId, at }) => {
        const problem = at(this.lengthMm);
        if (problem === null) return [];
        return [{ inletId, pool: new TubePool(problem, collectorId, () => this.#nextNumber()) }];
      },
    );
    return this.#byPrimary[primary];
  }

  #nextNumber(): number {
    this.#count += 1;
    return this.#count;
  }

  /** Lets go of all tubes: there may be very many, and no more will be asked of them. */
  forget(): void {
    this.#byPrimary.length = 0;
  }
}
