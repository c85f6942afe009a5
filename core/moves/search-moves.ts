/** One whole search of a primary's moves: straights, then turns in closed form, then joints, then bends let in. */

import { searchBendPairs } from './kinds/bend-pair.ts';
import { searchKicks } from './kinds/kick.ts';
import { searchManyChanges } from './kinds/many-changes.ts';
import { searchOpenedJoints } from './kinds/opened-joints.ts';
import { searchStraights } from './kinds/straights.ts';
import { type SearchVariables, searchTurns } from './kinds/turns.ts';
import type { Variable } from './problem/variable.ts';
import { variablesOf } from './problem/variables.ts';
import type { MoveKind } from './question.ts';
import type { Search } from './search.ts';

/** Sets of this many straights are looked through at most: four are enough for an exact answer in space, two more may be taken out. */
const MOST_STRAIGHTS = 6;
/** Above so many straights the sets are kept to three. */
const MANY_STRAIGHTS = 26;

/** Runs to its end, pausing (by yielding) every millisecond or so; what it found lies in the search at any pause. */
export function* searchMoves(search: Search): Generator<void, void> {
  const { problem, aim, limits } = search;
  const all = variablesOf(problem, aim.ends).filter((one) => limits.mayTouchHeld || !one.isHeld);
  const shifts = all.filter(({ kind }) => kind === 'length' || kind === 'takeOut' || kind === 'letIn');
  const has = (kind: MoveKind) => limits.kinds.includes(kind);
  if (has('straights')) yield* searchStraights(search, shifts, shifts.length > MANY_STRAIGHTS ? 3 : MOST_STRAIGHTS);
  if (has('kick')) yield* searchKicks(search, shifts);
  // Without a turn to make this still finds straights that close within the ball, where `searchStraights` keeps to a cube.
  if (has('clockings') || has('trims') || has('swaps')) {
    yield* searchAllTurns(search, { all, turns: all.filter((one) => mayTurn(one, has)), shifts });
  }
  if (has('bendPair')) yield* searchBendPairs(search, shifts);
  if (search.best.found.length === 0)
    yield* searchManyChanges(search, [...shifts, ...all.filter((one) => mayTurn(one, has))]);
}

function mayTurn({ kind }: Variable, has: (kind: MoveKind) => boolean): boolean {
  if (kind === 'clocking') return has('clockings') || has('trims') || has('swaps');
  return (kind === 'angle' && (has('trims') || has('swaps'))) || (kind === 'swap' && has('swaps'));
}

function* searchAllTurns(
  search: Search,
  { all, turns, shifts }: { readonly all: readonly Variable[] } & SearchVariables,
): Generator<void, void> {
  const sameAngle = turns.filter((one) => one.kind === 'swap' && one.start === one.present);
  yield* searchTurns(search, { turns, shifts: inSlots([...shifts, ...sameAngle]) });
  const few = all.filter((one) => one.kind !== 'takeOut' && (shifts.includes(one) || turns.includes(one)));
  yield* searchOpenedJoints(search, few);
}

function inSlots(variables: readonly Variable[]): readonly Variable[] {
  return [...variables].sort((a, b) => a.slot - b.slot);
}
