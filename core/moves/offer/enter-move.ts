/** From exact values to a candidate: settled, rounded to what a saw can do, priced, and taken in among the best. */

import { mmOf } from '../../units/length.ts';
import type { Setting } from '../problem/setting.ts';
import { touchOf, type Variable, valueLimits } from '../problem/variable.ts';
import { kindOf, stockNeeds, tubeAddedMm } from '../ranking/candidate.ts';
import { keyOf, type Search } from '../search.ts';
import { type Aim, isMet, lengthAt, missAt } from '../turning/miss.ts';
import { settleClosely } from '../turning/settle-closely.ts';
import { changesOf } from './move-changes.ts';
import { withRings } from './rings.ts';
import { roundToSaw } from './saw-steps.ts';

/** Values that meet the aim, found from a start near by; null when there are none. */
export function settledValues(
  { aim, seen }: Search,
  variables: readonly Variable[],
  start: ArrayLike<number>,
  limits = valueLimits(variables),
): Float64Array | null {
  const screws = variables.map(({ screw }) => screw);
  const { values, miss } = settleClosely(aim, screws, start, limits);
  seen.note(miss);
  return isMet(miss, aim) ? values : null;
}

/** The same move with fewer joints where it can be had: what rises, and is dearer for it, is held to falling if the rest allows. */
export function withFewerJoints(search: Search, variables: readonly Variable[], values: Float64Array): Float64Array {
  let now = values;
  const limits = valueLimits(variables);
  for (const [i, { isDearerRising }] of variables.entries()) {
    if (!isDearerRising || (now[i] as number) <= 0) continue;
    const high = limits.high[i] as number;
    limits.high[i] = 0;
    const fallen = settledValues(search, variables, now, limits);
    if (fallen === null) limits.high[i] = high;
    else now = fallen;
  }
  return now;
}

/** Values that agree to so many parts of a millimetre or a radian are the same. */
const SAME_PER = 1e4;

/** What came of values that were entered before: a third of all come again, and rounding takes longer than finding them. */
const enteredBefore = new WeakMap<Aim, Map<string, boolean>>();

/** Rounds exact values and takes the move in if it can be among the best; false when no rounding works. */
export function enterMove(search: Search, variables: readonly Variable[], values: ArrayLike<number>): boolean {
  if (!mayEnter(search, variables, values)) return true;
  const before = enteredBefore.get(search.aim) ?? new Map<string, boolean>();
  enteredBefore.set(search.aim, before);
  const name = nameOf(variables, values);
  const known = before.get(name);
  if (known !== undefined) return known;
  const isEntered = enterRounded(search, variables, values);
  before.set(name, isEntered);
  return isEntered;
}

/** The same for values that differ by less than any saw could show. */
function nameOf(variables: readonly Variable[], values: ArrayLike<number>): string {
  let name = '';
  for (let i = 0; i < variables.length; i += 1) {
    const { kind, slot, clr } = variables[i] as Variable;
    name += `${kind}${slot}${clr === null ? '' : mmOf(clr)}:${Math.round((values[i] as number) * SAME_PER)} `;
  }
  return name;
}

function enterRounded(search: Search, variables: readonly Variable[], values: ArrayLike<number>): boolean {
  const { problem, aim, seen } = search;
  const rounding = { style: problem.header.settings.display, isOff: problem.rounding === 'none' };
  const rounded = roundToSaw(aim, { variables, values }, rounding);
  if (rounded === null) {
    seen.hasLostToRounding = true;
    return false;
  }
  const settings = rounded.filter(isChange);
  if (settings.length > 0) take(search, withRings(search, settings) ?? settings);
  return settings.length > 0;
}

/** By its exact values, since rounding takes longer than finding them. */
function mayEnter(search: Search, variables: readonly Variable[], values: ArrayLike<number>): boolean {
  const { problem, aim, best } = search;
  const exact = variables.map((variable, i) => ({ variable, value: values[i] as number })).filter(isChange);
  const key = keyOf(
    search,
    exact.map(({ variable, value }) => touchOf(variable, value)),
  );
  const screws = variables.map(({ screw }) => screw);
  const offMm = Math.abs(lengthAt(aim, screws, values) - aim.window.aimMm);
  return best.mayEnter(key, tubeAddedMm(problem, exact) + problem.closeness.offTarget * offMm);
}

function isChange({ variable: { kind, isFixed }, value }: Pick<Setting, 'variable' | 'value'>): boolean {
  return isFixed || kind === 'letIn' || kind === 'swap' || Math.abs(value) > 1e-6;
}

function take(search: Search, settings: readonly Setting[]): void {
  const { problem, aim, best } = search;
  const variables = settings.map(({ variable }) => variable);
  const miss = missAt(
    aim,
    variables.map(({ screw }) => screw),
    settings.map(({ value }) => value),
  );
  const touches = settings.map(({ variable, value }) => touchOf(variable, value));
  best.take({
    kind: kindOf(settings),
    changes: changesOf(problem, settings),
    demands: touches.map(({ demand }) => demand),
    slots: variables.map(({ slot }) => slot),
    key: keyOf(search, touches),
    tubeAddedMm: tubeAddedMm(problem, settings),
    needs: stockNeeds(problem, settings),
    offMm: Math.abs(miss.lengthMm - aim.window.aimMm),
  });
}
