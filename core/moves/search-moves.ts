/** One whole search of a primary's moves, under one set of limits. */

import { searchBendPairs } from './kinds/bend-pair.ts';
import { endAim } from './turning/miss.ts';
import { searchJoints } from './kinds/opened-joints.ts';
import { searchKicks } from './kinds/kick.ts';
import { MOVE_KINDS, type MoveKind } from './move.ts';
import { MovePool, type PoolLimits } from './ranking/move-pool.ts';
import type { FixedEnds, MoveProblem } from './problem/move-problem.ts';
import { type SearchVariables, searchStraights, searchTurns } from './kinds/turns.ts';
import { type Variable, variablesOf } from './problem/variables.ts';

/** Sets of this many straights are looked through at most: four are enough for an exact answer in space, two more may be taken out. */
const MOST_STRAIGHTS = 6;
/** Above so many straights the sets are kept to three and above so many things to change none of the dear searches run. */
const MANY_STRAIGHTS = 26;
const MOST_VARIABLES = 120;

const DEFAULT_MOST_MOVES = 6;

/** The limits that the options set. */
export function poolLimits({ options }: MoveProblem): PoolLimits {
  return {
    mayTouchHeld: false,
    mostJoints: options.maxJointsBroken ?? Number.POSITIVE_INFINITY,
    most: Math.max(1, options.maxMoves ?? DEFAULT_MOST_MOVES),
    kinds: options.kinds ?? MOVE_KINDS,
  };
}

/** Searches straights, then turns in closed form, then joints; the pool holds what was found. */
export function searchMoves(problem: MoveProblem, ends: FixedEnds, limits: PoolLimits): MovePool {
  const pool = new MovePool(problem, endAim(ends, problem.window), limits);
  const all = variablesOf(problem, ends).filter((one) => limits.mayTouchHeld || !one.isHeld);
  const shifts = all.filter(({ kind }) => kind === 'length' || kind === 'takeOut' || kind === 'letIn');
  const has = (kind: MoveKind) => limits.kinds.includes(kind);
  if (has('straights')) searchStraights(pool, shifts, shifts.length > MANY_STRAIGHTS ? 3 : MOST_STRAIGHTS);
  if (has('kick')) searchKicks(pool, shifts);
  const turns = all.filter(
    ({ kind }) =>
      (kind === 'clocking' && (has('clockings') || has('trims') || has('swaps'))) ||
      (kind === 'angle' && (has('trims') || has('swaps'))) ||
      (kind === 'swap' && has('swaps')),
  );
  if (all.length > MOST_VARIABLES || pool.shouldStop()) return pool;
  // Without a turn to make this still finds straights that close within the ball, where `searchStraights` keeps to a cube.
  if (has('clockings') || has('trims') || has('swaps')) searchAllTurns(pool, { all, turns, shifts });
  if (has('bendPair') && !pool.shouldStop()) searchBendPairs(pool, shifts);
  return pool;
}

function searchAllTurns(
  pool: MovePool,
  { all, turns, shifts }: { readonly all: readonly Variable[] } & SearchVariables,
): void {
  const sameAngle = turns.filter((one) => one.kind === 'swap' && one.start === one.present);
  searchTurns(pool, { turns, shifts: inSlots([...shifts, ...sameAngle]) });
  if (pool.shouldStop()) return;
  searchJoints(
    pool,
    all.filter((one) => one.kind !== 'takeOut' && (shifts.includes(one) || turns.includes(one))),
  );
}

function inSlots(variables: readonly Variable[]): readonly Variable[] {
  return [...variables].sort((a, b) => a.slot - b.slot);
}
