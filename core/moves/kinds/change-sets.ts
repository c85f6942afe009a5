/** Every set of a few changes, in order of price. A kernel: it goes through a hundred thousand sets in one search. */

import type { Variable } from '../problem/variable.ts';
import { LEAST_STEP } from '../ranking/cost.ts';
import type { Search } from '../search.ts';

/** How far a search goes before it gives up. */
export interface Effort {
  /** Things changed on purpose in one move; re-clockings that come free with them are on top. */
  readonly changes: number;
  /** Sets that are tried, of those that looked promising. */
  readonly tries: number;
  /** Sets of one number of joints that are looked at. */
  readonly sets: number;
  /** Sets that cost the same are tried by promise, and no more than so many. */
  readonly perLevel: number;
  /** Looks only for what is cheaper than the best so far, rather than for all that may come into the list. */
  readonly isForBest: boolean;
}

interface Sources {
  readonly search: Pick<Search, 'tally'>;
  readonly variables: readonly Variable[];
  /** Which of the leads each variable belongs to; -1 for the others. */
  readonly leadOf: readonly number[];
  readonly leads: number;
  readonly effort: Effort;
}

/** Places in the list of variables. */
export type ChangeSets = (readonly number[])[];

/** All sets of variables, up to as many as the effort allows, with a key in the range, by key, cheapest first. */
export function* changeSets(
  { search: { tally }, variables, leadOf, leads, effort }: Sources,
  { above, most }: { readonly above: number; readonly most: number },
): Generator<void, readonly (readonly [number, ChangeSets])[]> {
  const levels = new Map<number, ChangeSets>();
  const slots = variables.map(({ slot }) => slot);
  let count = 0;
  const lacksLeads = (chosen: readonly number[], index: number) =>
    missingLeads([...chosen, index], leadOf, leads) > effort.changes - 1 - chosen.length;
  const add = (chosen: readonly number[], index: number) => {
    const variable = variables[index] as Variable;
    const isTaken = chosen.some((other) => slots[other] === slots[index]);
    if (isTaken || count >= effort.sets || (leads > 0 && lacksLeads(chosen, index))) return;
    const before = effort.isForBest ? tally.key : 0;
    tally.push(variable);
    const { key } = tally;
    const isWhole = chosen.length === effort.changes - 1;
    // What comes free is on top of the set without it.
    const isFree = effort.isForBest && variable.kind === 'clocking' && key - before <= LEAST_STEP;
    // Most of the largest sets are too cheap for this range, and were looked into before: no list is made for those.
    if (key <= most && !isFree && (key > above || !isWhole)) {
      const set = [...chosen, index];
      // Smaller sets were looked into before, but for those with a piece taken out.
      const isNew = isWhole || !effort.isForBest || set.some((one) => variables[one]?.isFixed);
      if (key > above && isNew && (leads === 0 || missingLeads(set, leadOf, leads) === 0)) {
        count += 1;
        put(levels, key, set);
      }
      if (!isWhole) for (let next = index + 1; next < variables.length; next += 1) add(set, next);
    }
    tally.pop(variable);
  };
  for (let index = 0; index < variables.length; index += 1) {
    yield;
    add([], index);
  }
  return [...levels].sort(([a], [b]) => a - b);
}

function put(levels: Map<number, ChangeSets>, key: number, set: readonly number[]): void {
  const level = levels.get(key);
  if (level === undefined) levels.set(key, [set]);
  else level.push(set);
}

/** How many of the leads have none in the set. */
function missingLeads(chosen: readonly number[], leadOf: readonly number[], leads: number): number {
  let missing = 0;
  for (let lead = 0; lead < leads; lead += 1) {
    if (!chosen.some((index) => leadOf[index] === lead)) missing += 1;
  }
  return missing;
}
