/** Leaves out of a set of changes that closes whatever it can do without. */

import { enterMove, settledValues, withFewerJoints } from '../offer/enter-move.ts';
import { touchOf, type Variable } from '../problem/variable.ts';
import { keyOf, type Search } from '../search.ts';
import { isTurn } from '../turning/end-motion.ts';

/** Changes that meet the aim with these values, in order along the tube. */
export interface ChangeSet {
  readonly variables: readonly Variable[];
  readonly values: Float64Array;
}

/** Once what changes least first and once what costs most, and enters what remains; those that could be entered come back. */
export function* thinOut(search: Search, set: ChangeSet): Generator<void, readonly ChangeSet[]> {
  const sizes = set.variables.map((variable, i) => sizeOf(variable, set.values[i] as number));
  const bySize = yield* thinOutBy(search, inOrder(set.variables, sizes, 1), set);
  const byPrice = yield* thinOutDearest(search, set);
  return [bySize, byPrice].filter((one) => one !== null);
}

/** What costs most first, and enters what remains; null when it could not be entered. */
export function thinOutDearest(search: Search, set: ChangeSet): Generator<void, ChangeSet | null> {
  const { variables, values } = set;
  const prices = variables.map((variable, i) => keyOf(search, [touchOf(variable, values[i] as number)]));
  return thinOutBy(search, inOrder(variables, prices, -1), set);
}

function inOrder(variables: readonly Variable[], figures: readonly number[], sign: 1 | -1): readonly Variable[] {
  const order = variables.map((_, i) => i).sort((a, b) => sign * ((figures[a] as number) - (figures[b] as number)));
  return order.map((i) => variables[i] as Variable);
}

function* thinOutBy(search: Search, order: readonly Variable[], set: ChangeSet): Generator<void, ChangeSet | null> {
  let { variables, values } = set;
  for (const variable of order) {
    const fewer = variables.filter((one) => one !== variable);
    if (fewer.length === 0) break;
    yield;
    const start = fewer.map((one) => values[variables.indexOf(one)] as number);
    const without = settledValues(search, fewer, start);
    if (without !== null) [variables, values] = [fewer, without];
  }
  values = withFewerJoints(search, variables, values);
  if (enterMove(search, variables, values)) return { variables, values };
  return variables !== set.variables && enterMove(search, set.variables, set.values) ? set : null;
}

/** In steps that feel alike: a tenth of a radian and ten millimetres. */
function sizeOf({ screw, isFixed }: Variable, value: number): number {
  if (isFixed) return Number.POSITIVE_INFINITY;
  return Math.abs(value) * (isTurn(screw) ? 10 : 0.1);
}
