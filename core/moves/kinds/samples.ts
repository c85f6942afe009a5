/** What searches by samples draw from. */

import { mmOf } from '../../units/length.ts';
import type { Variable, VariableKind } from '../problem/variable.ts';

/** What a number is drawn for. */
export type DrawnFor = 'order' | 'value';

const KINDS: Readonly<Record<VariableKind, number>> = {
  length: 1,
  takeOut: 2,
  letIn: 3,
  clocking: 4,
  angle: 5,
  swap: 6,
  bendOut: 7,
  pies: 8,
  newClocking: 9,
  newAngle: 10,
};

/**
 * A number from 0 to below 1 that hangs on the sample and the variable alone. The same question has the same answer, and where
 * another piece may be changed as well, all others are drawn in the order and with the values that they would have without it.
 */
export function drawn(sample: number, { kind, pieceIndex, clr }: Variable, use: DrawnFor): number {
  const clrTenths = clr === null || kind !== 'swap' ? 0 : Math.round(mmOf(clr) * 10);
  return mixed([sample, 16 * pieceIndex + KINDS[kind], clrTenths, use === 'order' ? 1 : 2]);
}

/** The variables in the order in which the sample draws them. */
export function inOrderOf(sample: number, variables: readonly Variable[]): readonly Variable[] {
  const places = new Map(variables.map((variable) => [variable, drawn(sample, variable, 'order')]));
  return [...variables].sort((a, b) => (places.get(a) as number) - (places.get(b) as number));
}

/** The same for a whole sample. */
export function drawnOf(sample: number, use: number): number {
  return mixed([sample, use]);
}

/** Stirs whole numbers into one from 0 to below 1 (multiplying and folding, after A. Appleby's MurmurHash3, 2011). */
function mixed(parts: readonly number[]): number {
  let state = 0x9e3779b9;
  for (const part of parts) {
    state = Math.imul(state ^ part, 0x85ebca6b);
    state = Math.imul(state ^ (state >>> 13), 0xc2b2ae35);
    state ^= state >>> 16;
  }
  return (state >>> 0) / 2 ** 32;
}

/** A row of numbers from 0 to below 1, the same every time, so that the same question has the same answer (constants of Numerical Recipes, from memory). */
export function fixedRandom(): () => number {
  let state = 2_654_435_769;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}
