/** One tube for each primary so that all keep the gap and no two end in one inlet: a search with looking ahead, from fixed orders. */

import { fixedRandom } from '../../moves/kinds/samples.ts';
import { isTooNear } from './tube-cloud.ts';
import type { PooledTube } from './tube-pool.ts';

/** Tubes that are set in one order before the next order is tried. */
const SETTINGS = 40;
/** Pairs of tubes that are held against each other in all before a search is given up, those known from before left out. */
const MOST_PAIRS = 60_000;
/** The same for one set more, where there is one already. */
const MORE_PAIRS = 3_000;
/** Pairs of tubes that are held against each other between two pauses. */
const PAIRS_A_PAUSE = 24;

export interface Choice {
  readonly tube: PooledTube;
  readonly inletId: string;
}

export class Together {
  private readonly gapMm: number | null;
  private readonly known = new Map<number, boolean>();
  /** Tubes that turned out not to serve, by number. */
  private readonly out = new Set<number>();
  private newPairs = 0;

  /** Null: tubes may be as near as they like, if only they end in different inlets. */
  constructor(gapMm: number | null) {
    this.gapMm = gapMm;
  }

  /** Takes two tubes for too near to each other from now on, whatever their points say. */
  keepApart(one: Choice, other: Choice): void {
    this.known.set(pairKey(one, other), false);
  }

  /** Leaves a tube out from now on. */
  leaveOut({ tube }: Choice): void {
    this.out.add(tube.number);
  }

  /**
   * The set with the fewest bends that was found; null where none was. `all` by primary, each in the order of proposals. The number of bends is raised from the
   * least that there could be; for each so many orders are gone through, the first by rank: the primary with the fewest tubes left is set first, what does
   * not go with it is left out of the others, and where one has none left the next tube is tried.
   */
  *fewestBends(
    all: readonly (readonly Choice[])[],
    mostBends: number,
    orders: number,
  ): Generator<void, readonly Choice[] | null> {
    const pools = all.map((pool) => pool.filter(({ tube }) => !this.out.has(tube.number)));
    if (pools.some(({ length }) => length === 0)) return null;
    const random = fixedRandom();
    const most = Math.min(mostBends, mostOf(pools));
    this.newPairs = 0;
    for (let bends = leastBends(pools); bends <= most && this.newPairs < MOST_PAIRS; bends += 1) {
      for (let order = 0; order < orders; order += 1) {
        const ordered = order === 0 ? pools : pools.map((pool) => strewn(pool, random));
        const open = ordered.map((choices, primary) => ({ primary, choices }));
        const work = { settings: 0, pairs: 0, bends };
        const set = yield* this.setNext(open, [], work);
        if (set !== null) return inOrder(set);
        yield;
        if (work.settings < SETTINGS) break;
      }
    }
    return null;
  }

  /** A set of no more than so many bends, in an order drawn anew; null where that comes to none. */
  *another(
    all: readonly (readonly Choice[])[],
    bends: number,
    random: () => number,
  ): Generator<void, readonly Choice[] | null> {
    const pools = all.map((pool) => pool.filter(({ tube }) => !this.out.has(tube.number)));
    if (pools.some(({ length }) => length === 0)) return null;
    this.newPairs = MOST_PAIRS - MORE_PAIRS;
    const open = pools.map((pool, primary) => ({ primary, choices: strewn(pool, random) }));
    const set = yield* this.setNext(open, [], { settings: 0, pairs: 0, bends });
    return set === null ? null : inOrder(set);
  }

  private *setNext(open: readonly Open[], set: readonly SetChoice[], work: Work): Generator<void, SetChoice[] | null> {
    const [next, ...rest] = [...open].sort((a, b) => a.choices.length - b.choices.length);
    if (next === undefined) return [...set];
    const spent = set.reduce((sum, { choice }) => sum + bendsOf(choice), 0);
    const needed = leastBends(rest.map(({ choices }) => choices));
    for (const choice of next.choices) {
      if (spent + bendsOf(choice) + needed > work.bends) continue;
      work.settings += 1;
      if (work.settings > SETTINGS || this.newPairs > MOST_PAIRS) return null;
      const left = yield* this.leftBeside(choice, rest, work);
      if (left === null) continue;
      const found = yield* this.setNext(left, [...set, { primary: next.primary, choice }], work);
      if (found !== null) return found;
    }
    return null;
  }

  /** What of the others goes with this choice; null where one of them has nothing left. */
  private *leftBeside(choice: Choice, open: readonly Open[], work: Work): Generator<void, readonly Open[] | null> {
    const left: Open[] = [];
    for (const { primary, choices } of open) {
      const going: Choice[] = [];
      for (const other of choices) {
        work.pairs += 1;
        if (work.pairs % PAIRS_A_PAUSE === 0) yield;
        if (this.goTogether(choice, other)) going.push(other);
      }
      if (going.length === 0) return null;
      left.push({ primary, choices: going });
    }
    return left;
  }

  private goTogether(one: Choice, other: Choice): boolean {
    if (one.inletId === other.inletId) return false;
    if (this.gapMm === null) return true;
    const key = pairKey(one, other);
    const known = this.known.get(key);
    if (known !== undefined) return known;
    this.newPairs += 1;
    const isGoing = !isTooNear(one.tube.cloud, other.tube.cloud, this.gapMm);
    this.known.set(key, isGoing);
    return isGoing;
  }
}

/** In the order of the header. */
function inOrder(set: readonly SetChoice[]): readonly Choice[] {
  return [...set].sort((a, b) => a.primary - b.primary).map(({ choice }) => choice);
}

interface Open {
  readonly primary: number;
  readonly choices: readonly Choice[];
}

interface SetChoice {
  readonly primary: number;
  readonly choice: Choice;
}

interface Work {
  settings: number;
  pairs: number;
  readonly bends: number;
}

function pairKey(one: Choice, other: Choice): number {
  return Math.max(one.tube.number, other.tube.number) * 2 ** 20 + Math.min(one.tube.number, other.tube.number);
}

function bendsOf({ tube: { bends } }: Choice): number {
  return bends;
}

function leastBends(pools: readonly (readonly Choice[])[]): number {
  return pools.reduce((sum, pool) => sum + Math.min(...pool.map(bendsOf)), 0);
}

function mostOf(pools: readonly (readonly Choice[])[]): number {
  return pools.reduce((sum, pool) => sum + Math.max(...pool.map(bendsOf)), 0);
}

/** In any order, but those with fewer bends first. */
function strewn(pool: readonly Choice[], random: () => number): readonly Choice[] {
  return pool
    .map((choice) => ({ choice, at: bendsOf(choice) + random() }))
    .sort((a, b) => a.at - b.at)
    .map(({ choice }) => choice);
}
