/** Makes moves that were found by chance cheaper: one change after another is exchanged for another, or left out, for as long as that helps. */

import { settledValues } from '../offer/enter-move.ts';
import { touchOf, type Variable } from '../problem/variable.ts';
import { keyOf, type Search } from '../search.ts';
import { MOST_SCREWS } from '../turning/end-motion.ts';
import { withFreeClockings } from './free-clockings.ts';
import { type ChangeSet, thinOut } from './thin-out.ts';

/** So many of the cheapest are worked on, and so many exchanges are tried with all of them together. */
const MOST_SETS = 3;
const MOST_TRIES = 600;

interface Priced extends ChangeSet {
  readonly key: number;
}

/**
 * Where a set of changes was drawn at random, a cheaper one mostly lies an exchange or two away. Each member of a set is left out or
 * exchanged for each other variable, all bends that are then free are re-clocked, and what is cheaper takes the set's
 * place, until nothing is.
 */
export function* exchangeChanges(
  search: Search,
  variables: readonly Variable[],
  found: readonly ChangeSet[],
): Generator<void, void> {
  const sets = found.map((set) => priced(search, set)).sort((a, b) => a.key - b.key);
  const context = { search, variables, tried: new Set<string>() };
  for (const set of sets.slice(0, MOST_SETS)) {
    let now: Priced | null = set;
    while (now !== null && context.tried.size < MOST_TRIES) now = yield* cheaper(context, now);
  }
}

function priced(search: Search, { variables, values }: ChangeSet): Priced {
  const key = keyOf(
    search,
    variables.map((variable, i) => touchOf(variable, values[i] as number)),
  );
  return { variables, values, key };
}

interface Context {
  readonly search: Search;
  readonly variables: readonly Variable[];
  /** Sets that were tried, by the places of their members. */
  readonly tried: Set<string>;
}

/** The first cheaper set that is an exchange away; null when there is none. */
function* cheaper(context: Context, set: Priced): Generator<void, Priced | null> {
  const { search, tried } = context;
  for (const { members, key } of exchangesOf(context, set)) {
    const name = members.join();
    if (tried.has(name)) continue;
    if (tried.size >= MOST_TRIES) return null;
    tried.add(name);
    yield;
    if (!search.best.isWorthWhile(key)) continue;
    const closed = closedWith(context, members, set);
    if (closed === null) continue;
    const thinned = (yield* thinOut(search, closed)).map((one) => priced(search, one));
    const better = thinned.sort((a, b) => a.key - b.key)[0];
    if (better !== undefined && better.key < set.key) return better;
  }
  return null;
}

interface Exchange {
  /** Places among all variables, in order. */
  readonly members: readonly number[];
  /** The least that it can cost. */
  readonly key: number;
}

/** Those that may be cheaper, the cheapest first. */
function exchangesOf({ search, variables }: Context, set: Priced): readonly Exchange[] {
  const places = set.variables.map((one) => variables.indexOf(one));
  const exchanges: Exchange[] = [];
  const add = (members: readonly number[]) => {
    const key = keyOf(
      search,
      members.map((index) => variables[index] as Variable),
    );
    if (key < set.key) exchanges.push({ members: [...members].sort((a, b) => a - b), key });
  };
  for (const gone of places) {
    const left = places.filter((index) => index !== gone);
    if (left.length > 0) add(left);
    for (const [index, { slot }] of variables.entries()) {
      const isTaken = index === gone || left.some((other) => variables[other]?.slot === slot);
      if (!isTaken) add([...left, index]);
    }
  }
  return exchanges.sort((a, b) => a.key - b.key);
}

/** Values with which the members, and all bends that come free with them, meet the aim; null when none are found. */
function closedWith({ search, variables }: Context, members: readonly number[], set: Priced): ChangeSet | null {
  const clockings = variables.flatMap(({ kind }, index) => (kind === 'clocking' ? [index] : []));
  const all = withFreeClockings(search.tally, { variables, clockings }, members).slice(0, MOST_SCREWS);
  const together = all.map((index) => variables[index] as Variable).sort((a, b) => a.screw.order - b.screw.order);
  const start = together.map((one) => {
    const at = set.variables.indexOf(one);
    return at < 0 ? one.start - one.present : (set.values[at] as number);
  });
  const values = settledValues(search, together, start);
  return values === null ? null : { variables: together, values };
}
