/** Moves with one or two turns worked out in closed form, and up to as many straights as make three changes. */

import { distance } from '../../path/vector.ts';
import { radiansOf } from '../../units/angle.ts';
import type { Variable } from '../problem/variable.ts';
import { keyOf, type Search } from '../search.ts';
import { oneTurn, twoTurns } from '../turning/turn-seeds.ts';
import { searchTurned } from './turned.ts';

const MOST_CHANGES = 3;
const STILL_RAD = 1e-4;

export interface SearchVariables {
  /** Re-clockings, bends cut to another angle, and bends of another CLR with their angle free. */
  readonly turns: readonly Variable[];
  /** Straights, and bends of another CLR at the same angle. */
  readonly shifts: readonly Variable[];
}

/** Every set of one or two turns that keeps the end's direction, with what straights must then do. */
export function* searchTurns(search: Search, variables: SearchVariables): Generator<void, void> {
  const { limits } = search.aim.ends;
  // While the turns are not settled the end may lean by its tolerance, and so lie aside by that much of the tube's length.
  const extraMm = Math.min(4, radiansOf(limits.tiltDeg) * armMm(search));
  yield* searchOneTurn(search, variables, extraMm);
  yield* searchTwoTurns(search, variables, extraMm);
  yield* searchSwaps(search, variables.shifts, extraMm);
}

/** From the end to the joint farthest from it. */
function armMm({ aim: { ends } }: Search): number {
  return Math.max(...ends.joints.map(({ point }) => distance(point, ends.end.point)));
}

function* searchOneTurn(search: Search, { turns, shifts }: SearchVariables, extraMm: number): Generator<void, void> {
  const { end, wanted, limits } = search.aim.ends;
  const slackRad = radiansOf(limits.tiltDeg);
  for (const variable of turns) {
    yield;
    if (!search.best.isWorthWhile(keyOf(search, [variable]))) continue;
    for (const turn of oneTurn(variable.screw.axis, end.tangent, wanted.tangent, slackRad)) {
      if (isStill(variable, turn)) continue;
      const turned = { turns: [variable], values: [turn], mostChanges: MOST_CHANGES - 1, extraMm };
      yield* searchTurned(search, shifts, turned);
    }
  }
}

function* searchTwoTurns(search: Search, { turns, shifts }: SearchVariables, extraMm: number): Generator<void, void> {
  const { end, wanted, limits } = search.aim.ends;
  const slackRad = radiansOf(limits.tiltDeg);
  for (const [i, first] of turns.entries()) {
    for (const second of turns.slice(i + 1)) {
      if (first.slot === second.slot || !search.best.isWorthWhile(keyOf(search, [first, second]))) continue;
      const axes = { first: first.screw.axis, second: second.screw.axis };
      for (const values of twoTurns(axes, end.tangent, wanted.tangent, slackRad)) {
        if (isStill(first, values[0]) || isStill(second, values[1])) continue;
        const turned = { turns: [first, second], values, mostChanges: MOST_CHANGES - 2, extraMm };
        yield* searchTurned(search, shifts, turned);
      }
    }
    yield;
  }
}

/** Bends of another CLR at the same angle, with straights: nothing turns, but all is settled together in the end. */
function* searchSwaps(search: Search, shifts: readonly Variable[], extraMm: number): Generator<void, void> {
  const swaps = shifts.filter(({ kind }) => kind === 'swap');
  if (swaps.length === 0) return;
  const others = shifts.filter(({ kind }) => kind !== 'swap');
  const turned = { turns: [], values: [], mostChanges: MOST_CHANGES, extraMm, leads: swaps.length };
  yield* searchTurned(search, [...swaps, ...others], turned);
}

/** Whether a turn is too small to say: the search without it, or with a bend of another CLR as a mere shift, has had it. */
function isStill({ kind, start, present }: Variable, value: number): boolean {
  return Math.abs(value) < STILL_RAD && (kind !== 'swap' || start === present);
}
