/** One whole search of a primary's moves, layer by layer: what the tube itself allows first, then what the shelf adds. */

import { mmOf } from '../units/length.ts';
import { searchBendsIn } from './kinds/bend-in.ts';
import { searchBendPairs } from './kinds/bend-pair.ts';
import { searchCheaper } from './kinds/cheaper-sets.ts';
import { exchangeChanges } from './kinds/exchange.ts';
import { searchFixedTurns } from './kinds/fixed-turns.ts';
import { searchKicks } from './kinds/kick.ts';
import { searchManyChanges } from './kinds/many-changes.ts';
import { FOUR_CHANGES, searchOpenedJoints } from './kinds/opened-joints.ts';
import { searchStraights } from './kinds/straights.ts';
import { searchTurns } from './kinds/turns.ts';
import { fixedTurns } from './problem/fixed-turns.ts';
import type { Variable } from './problem/variable.ts';
import { variablesOf } from './problem/variables.ts';
import type { MoveKind } from './question.ts';
import type { Search } from './search.ts';

/** Sets of this many straights are looked through at most: four are enough for an exact answer in space, two more may be taken out. */
const MOST_STRAIGHTS = 6;
/** Above so many straights the sets are kept to three. */
const MANY_STRAIGHTS = 26;

/** Sets of many changes that are sampled of the tube itself, and with the bends of each CLR on the shelf. */
const SAMPLES = 1000;
const SAMPLES_OF_CLR = 300;
/** Samples in vain before a short tube is left: of 263 headers 8 had a dearer move without, 3 with 300, and 1 with 1200. Of 500 with a shorter shortest straight 3 had one with 500, and 2 with 800. */
const CHEAPER_SAMPLES = 800;

/** Of so many things that may change, about those of a dozen pieces, every four are looked at together; of more that takes too long. */
const FEW_VARIABLES = 36;

interface Parts {
  readonly all: readonly Variable[];
  /** Bends taken out, and pie-cut bends less whole pies. */
  readonly fixed: readonly Variable[];
  /** Straights: changed, taken out, let in. */
  readonly shifts: readonly Variable[];
  /** Bends re-clocked and cut to another angle. */
  readonly turns: readonly Variable[];
  /** Bends of another CLR, a list for each CLR. */
  readonly swaps: readonly (readonly Variable[])[];
}

/**
 * Runs to its end, pausing (by yielding) every millisecond or so; what it found lies in the search at any pause.
 *
 * Every layer has its own limits on how much it tries, so what a larger shelf offers never takes anything from what there was
 * without it: the layers before are the same, and those after only add. What is sampled at length comes last, where nothing was found, or nothing without new bends.
 */
export function* searchMoves(search: Search): Generator<void, void> {
  const { all, shifts, turns, fixed, swaps } = partsOf(search);
  const has = (kind: MoveKind) => search.limits.kinds.includes(kind);
  if (has('straights'))
    yield* settling(search, searchStraights(search, shifts, shifts.length > MANY_STRAIGHTS ? 3 : MOST_STRAIGHTS));
  if (has('kick')) yield* settling(search, searchKicks(search, shifts));
  // Without a turn to make this still finds straights that close within the ball, where `searchStraights` keeps to a cube.
  const mayTurn = has('clockings') || has('trims') || has('swaps');
  if (mayTurn) {
    yield* settling(search, searchTurns(search, { leads: [], turns, shifts }));
    yield* settling(search, searchOpenedJoints(search, { leads: [], others: settleable(shifts, turns) }));
  }
  if (has('bendPair')) yield* settling(search, searchBendPairs(search, shifts));
  yield* settling(search, searchFixedTurns({ search, turns, shifts, withTwo: !hasPlainMove(search) }, fixed));
  const isShort = shifts.length + turns.length <= FEW_VARIABLES;
  if (mayTurn && isShort) yield* searchShortTube(search, [...shifts, ...turns]);
  yield* searchSwaps(search, { shifts, turns, swaps });
  // By a shop's own prices a bend more may be cheaper than many joints.
  const mayAddBend = !hasPlainMove(search) || search.limits.prices !== null;
  if (has('bendIn') && mayAddBend) yield* settling(search, searchBendsIn(search, all));
  if (!hasPlainMove(search)) yield* searchBySamples(search, { shifts, turns, swaps, isShort });
}

/** A layer, and what it took in judged as it goes: what comes after hangs on what was found. */
function* settling<Value>({ best }: Search, layer: Generator<void, Value>): Generator<void, Value> {
  for (;;) {
    const { done, value } = layer.next();
    if (best.hasWaiting) yield* best.settle();
    if (done === true) return value;
    yield;
  }
}

/** For what is cheaper than what was found; before the shelf comes in, so that it does the same whatever there is on it. */
function* searchShortTube(search: Search, own: readonly Variable[]): Generator<void, void> {
  yield* settling(search, searchOpenedJoints(search, { leads: [], others: inOrder(own) }, FOUR_CHANGES));
  if (hasPlainMove(search)) yield* settling(search, searchCheaper(search, own, CHEAPER_SAMPLES));
}

function* searchBySamples(
  search: Search,
  { shifts, turns, swaps, isShort }: Pick<Parts, 'shifts' | 'turns' | 'swaps'> & { readonly isShort: boolean },
): Generator<void, void> {
  const own = [...shifts, ...turns];
  yield* sampledAndExchanged(search, own, SAMPLES);
  // What chance came by, or a bend let in, is seldom the cheapest.
  if (isShort && search.best.found.length > 0) yield* settling(search, searchCheaper(search, own, CHEAPER_SAMPLES));
  for (const leads of swaps) yield* sampledAndExchanged(search, [...own, ...leads], SAMPLES_OF_CLR);
}

function* sampledAndExchanged(search: Search, variables: readonly Variable[], samples: number): Generator<void, void> {
  yield* settling(
    search,
    exchangeChanges(search, variables, yield* settling(search, searchManyChanges(search, variables, samples))),
  );
}

/** Whether there is a move that adds no bend. */
function hasPlainMove({ best }: Search): boolean {
  return best.found.some(({ candidate }) => candidate.cost.bends === 0);
}

/** One CLR after another, then two of them together. */
function* searchSwaps(
  search: Search,
  { shifts, turns, swaps }: Pick<Parts, 'shifts' | 'turns' | 'swaps'>,
): Generator<void, void> {
  for (const leads of swaps) {
    yield* settling(search, searchTurns(search, { leads, turns, shifts }));
    yield* settling(search, searchOpenedJoints(search, { leads: [leads], others: settleable(shifts, turns) }));
  }
  for (const [i, one] of swaps.entries()) {
    for (const two of swaps.slice(i + 1)) {
      yield* settling(search, searchOpenedJoints(search, { leads: [one, two], others: settleable(shifts, turns) }));
    }
  }
}

function partsOf({ problem, aim, limits }: Search): Parts {
  const all = variablesOf(problem, aim.ends).filter((one) => limits.mayTouchHeld || !one.isHeld);
  const has = (kind: MoveKind) => limits.kinds.includes(kind);
  const mayClock = has('clockings') || has('trims') || has('swaps');
  const fixed = fixedTurns(problem, aim.ends).filter((one) => limits.mayTouchHeld || !one.isHeld);
  return {
    all,
    fixed: fixed.filter(({ kind }) => (kind === 'bendOut' ? has('bendOut') : has('trims') || has('swaps'))),
    shifts: all.filter(({ kind }) => kind === 'length' || kind === 'takeOut' || kind === 'letIn'),
    turns: all.filter(
      ({ kind }) => (kind === 'clocking' && mayClock) || (kind === 'angle' && (has('trims') || has('swaps'))),
    ),
    swaps: has('swaps') ? byClr(all.filter(({ kind }) => kind === 'swap')) : [],
  };
}

/** In the order of the shelf, tightest CLR first. */
function byClr(swaps: readonly Variable[]): readonly (readonly Variable[])[] {
  const lists = new Map<number, Variable[]>();
  for (const swap of swaps) {
    const clrMm = swap.clr === null ? 0 : mmOf(swap.clr);
    lists.set(clrMm, [...(lists.get(clrMm) ?? []), swap]);
  }
  return [...lists].sort(([a], [b]) => a - b).map(([, list]) => list);
}

/** What has a value to settle; what is taken out has none. */
function settleable(shifts: readonly Variable[], turns: readonly Variable[]): readonly Variable[] {
  return inOrder([...shifts.filter(({ kind }) => kind !== 'takeOut'), ...turns]);
}

function inOrder(variables: readonly Variable[]): readonly Variable[] {
  return [...variables].sort((a, b) => a.slot - b.slot);
}
