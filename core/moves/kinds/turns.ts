/** Moves with one or two turns worked out in closed form, and up to as many straights as make three changes. */

import { distance } from '../../path/vector.ts';
import { radiansOf } from '../../units/angle.ts';
import type { Variable } from '../problem/variable.ts';
import { keyOf, type Search } from '../search.ts';
import { oneTurn, twoTurns } from '../turning/turn-seeds.ts';
import { searchTurned, type Turned } from './turned.ts';

const MOST_CHANGES = 3;
const STILL_RAD = 1e-4;

export interface TurnVariables {
  /** Bends of another CLR, of which every move holds at least one; none when it is about the bends that are there. */
  readonly leads: readonly Variable[];
  /** Re-clockings and bends cut to another angle. */
  readonly turns: readonly Variable[];
  readonly shifts: readonly Variable[];
}

/** Every set of one or two turns that keeps the end's direction, with what straights must then do. */
export function* searchTurns(search: Search, variables: TurnVariables): Generator<void, void> {
  const { leads, turns, shifts } = variables;
  // A bend of another CLR at the same angle turns nothing: it is a mere shift.
  const still = leads.filter((one) => one.start === one.present);
  const layer = { search, shifts: [...still, ...shifts], extraMm: extraMm(search) };
  if (leads.length === 0) {
    yield* searchOneTurn(layer, turns);
    yield* searchTwoTurns(layer, turns, turns.length);
    return;
  }
  yield* searchOneTurn(layer, leads);
  yield* searchTwoTurns(layer, [...leads, ...turns], leads.length);
  if (still.length === 0) return;
  const shiftLeads = still.length;
  yield* searchOneTurn({ ...layer, shiftLeads }, turns);
  yield* searchTwoTurns({ ...layer, shiftLeads }, turns, turns.length);
  yield* searchLayer(layer, { turns: [], values: [], mostChanges: MOST_CHANGES, leads: shiftLeads });
}

interface Layer {
  readonly search: Search;
  readonly shifts: readonly Variable[];
  readonly extraMm: number;
  /** Every set of shifts holds one of the first so many; any will do when it is left out. */
  readonly shiftLeads?: number;
}

function searchLayer({ search, shifts, extraMm }: Layer, turned: Omit<Turned, 'extraMm'>): Generator<void, void> {
  return searchTurned(search, shifts, { ...turned, extraMm });
}

/** While the turns are not settled the end may lean by its tolerance, and so lie aside by that much of the tube's length. */
function extraMm({ aim: { ends } }: Search): number {
  const armMm = Math.max(...ends.joints.map(({ point }) => distance(point, ends.end.point)));
  return Math.min(4, radiansOf(ends.limits.tiltDeg) * armMm);
}

function leadsOf({ shiftLeads }: Layer): Pick<Turned, 'leads'> {
  return shiftLeads === undefined ? {} : { leads: shiftLeads };
}

function* searchOneTurn(layer: Layer, turns: readonly Variable[]): Generator<void, void> {
  const { search } = layer;
  const { end, wanted, limits } = search.aim.ends;
  const slackRad = radiansOf(limits.tiltDeg);
  for (const variable of turns) {
    yield;
    if (!search.best.isWorthWhile(keyOf(search, [variable]))) continue;
    for (const turn of oneTurn(variable.screw.axis, end.tangent, wanted.tangent, slackRad)) {
      if (isStill(variable, turn)) continue;
      const turned = { turns: [variable], values: [turn], mostChanges: MOST_CHANGES - 1 };
      yield* searchLayer(layer, { ...turned, ...leadsOf(layer) });
    }
  }
}

/** Pairs that hold one of the first `leads` turns. */
function* searchTwoTurns(layer: Layer, turns: readonly Variable[], leads: number): Generator<void, void> {
  const { search } = layer;
  const { end, wanted, limits } = search.aim.ends;
  const slackRad = radiansOf(limits.tiltDeg);
  for (const [i, one] of turns.slice(0, leads).entries()) {
    for (const two of turns.slice(i + 1)) {
      const [first, second] = one.screw.order < two.screw.order ? [one, two] : [two, one];
      if (first.slot === second.slot || !search.best.isWorthWhile(keyOf(search, [first, second]))) continue;
      const axes = { first: first.screw.axis, second: second.screw.axis };
      for (const values of twoTurns(axes, end.tangent, wanted.tangent, slackRad)) {
        if (isStill(first, values[0]) || isStill(second, values[1])) continue;
        const turned = { turns: [first, second], values, mostChanges: MOST_CHANGES - 2 };
        yield* searchLayer(layer, { ...turned, ...leadsOf(layer) });
      }
    }
    yield;
  }
}

/** Whether a turn is too small to say: the search without it, or with a bend of another CLR as a mere shift, has had it. */
function isStill({ kind, start, present }: Variable, value: number): boolean {
  return Math.abs(value) < STILL_RAD && (kind !== 'swap' || start === present);
}
