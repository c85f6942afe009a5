/** Moves with a turn of an angle that nobody chooses: a bend taken out, a pie-cut bend less whole pies. */

import { dot, turnAbout, type Vector } from '../../path/vector.ts';
import { radiansOf } from '../../units/angle.ts';
import type { Variable } from '../problem/variable.ts';
import { keyOf, type Search } from '../search.ts';
import { oneTurn, twoTurns } from '../turning/turn-seeds.ts';
import { searchTurned } from './turned.ts';

/** Changes in all, the fixed turn included. */
const MOST_CHANGES = 4;
const STILL_RAD = 1e-4;
/** What the windows are widened by while the turns are not settled. */
const EXTRA_MM = 4;

interface FixedSearch {
  readonly search: Search;
  /** Re-clockings and bends cut to another angle. */
  readonly turns: readonly Variable[];
  readonly shifts: readonly Variable[];
  /** Two turns besides the fixed one are tried as well. */
  readonly withTwo: boolean;
}

/**
 * Each fixed turn with what must make up for it: nothing but straights, one turn and straights, and two turns and straights. The
 * other turns are worked out in closed form with the fixed one made, as `searchTurns` does without it.
 */
export function* searchFixedTurns(fixedSearch: FixedSearch, fixed: readonly Variable[]): Generator<void, void> {
  const { search } = fixedSearch;
  for (const one of fixed) {
    yield;
    if (!search.best.isWorthWhile(keyOf(search, [one]))) continue;
    const turns = fixedSearch.turns.filter((turn) => mayGoWith(one, turn));
    yield* searchWith({ ...fixedSearch, turns }, one);
  }
}

/** Nothing else is done to the piece; the clocking of a bend that is gone says nothing. */
function mayGoWith(fixed: Variable, { slot, kind, pieceIndex }: Variable): boolean {
  if (slot === fixed.slot) return false;
  return !(fixed.kind === 'bendOut' && kind === 'clocking' && pieceIndex === fixed.pieceIndex);
}

interface Turn {
  readonly variable: Variable;
  /** Axis as it lies with the fixed turn made, so that the turn may be made after it whatever its place along the tube. */
  readonly axis: Vector;
}

function* searchWith({ search, turns, shifts, withTwo }: FixedSearch, fixed: Variable): Generator<void, void> {
  const { end, wanted, limits } = search.aim.ends;
  const slackRad = radiansOf(limits.tiltDeg);
  const fixedRad = fixed.low - fixed.present;
  const turned = (direction: Vector) => turnAbout(fixed.screw.axis, direction, fixedRad);
  const from = turned(end.tangent);
  const straightsFor = (variables: readonly Variable[], values: readonly number[]) =>
    searchTurned(search, shifts, {
      ...inOrder([fixed, ...variables], [fixedRad, ...values]),
      mostChanges: MOST_CHANGES - 1 - variables.length,
      extraMm: EXTRA_MM,
    });
  if (dot(from, wanted.tangent) > 0) yield* straightsFor([], []);
  const others = turns.map((variable): Turn => {
    const isAfter = variable.screw.order > fixed.screw.order;
    return { variable, axis: isAfter ? turned(variable.screw.axis) : variable.screw.axis };
  });
  const isWorthWhile = (...variables: readonly Variable[]) =>
    search.best.isWorthWhile(keyOf(search, [fixed, ...variables]));
  for (const [i, first] of others.entries()) {
    yield;
    if (!isWorthWhile(first.variable)) continue;
    for (const turn of oneTurn(first.axis, from, wanted.tangent, slackRad)) {
      if (Math.abs(turn) > STILL_RAD) yield* straightsFor([first.variable], [turn]);
    }
    for (const second of withTwo ? others.slice(i + 1) : []) {
      if (first.variable.slot === second.variable.slot || !isWorthWhile(first.variable, second.variable)) continue;
      const axes = { first: first.axis, second: second.axis };
      for (const values of twoTurns(axes, from, wanted.tangent, slackRad)) {
        if (values.every((value) => Math.abs(value) > STILL_RAD)) {
          yield* straightsFor([first.variable, second.variable], values);
        }
      }
    }
  }
}

/** The turns as they follow each other along the tube. */
function inOrder(turns: readonly Variable[], values: readonly number[]) {
  const order = turns.map((_, i) => i).sort((a, b) => orderAt(turns, a) - orderAt(turns, b));
  return { turns: order.map((i) => turns[i] as Variable), values: order.map((i) => values[i] as number) };
}

function orderAt(turns: readonly Variable[], at: number): number {
  return (turns[at] as Variable).screw.order;
}
