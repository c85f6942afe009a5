/** Moves in which a few joints come apart and everything there may turn: what is left when straights alone will not do. */

import { isMet, missAt } from '../turning/miss.ts';
import { MOST_SCREWS } from '../turning/end-motion.ts';
import { LEAST_STEP, largestKeyWith } from '../ranking/move-cost.ts';
import type { MovePool } from '../ranking/move-pool.ts';
import { NearSolutions } from '../turning/linear-picture.ts';
import { settleEnd } from '../turning/settle.ts';
import type { Variable } from '../problem/variables.ts';

const MOST_SETS = 65_000;
const MOST_TRIES = 800;
/** Things changed on purpose in one move; re-clockings that come free with them are on top. */
const MOST_CHANGES = 3;
/** Sets that cost the same are tried by promise, and no more than so many. */
const MOST_PER_LEVEL = 30;
/** From so many sets of one price on, only those that can still get in as they are found are looked into. */
const MANY_SETS = 1500;
/** Three values for six figures: only where they fit well is it no accident. */
const BARE_DOUBT = 0.6;

interface Context {
  readonly pool: MovePool;
  readonly near: NearSolutions;
  readonly variables: readonly Variable[];
  /** Places of the re-clockings among the variables. */
  readonly clockings: readonly number[];
}

/**
 * Changes up to three things, and re-clocks every bend that comes free with them, starting from how the tube lies now.
 *
 * Six figures must come right (three of the gap, two of the tilt, the length), and slip and band take the edge off two, so that
 * from four values on there is usually a solution near by. Sets are tried from the cheapest on until as many moves are found
 * as are wanted, or `MOST_TRIES` sets have been tried that looked promising. Turns too large to be reached from here are the
 * business of `searchTurns`.
 */
export function searchJoints(pool: MovePool, variables: readonly Variable[]): void {
  const near = new NearSolutions(variables, pool.aim);
  const clockings = variables.flatMap(({ kind }, index) => (kind === 'clocking' ? [index] : []));
  const context = { pool, near, variables, clockings };
  let left = MOST_TRIES;
  for (let joints = 0, dearest = -1; left > 0 && dearest < pool.keyLimit(); joints += 1) {
    const most = joints > variables.length ? Number.POSITIVE_INFINITY : largestKeyWith(joints);
    const levels = changeSets(context, { above: dearest, most: Math.min(most, pool.keyLimit()) });
    dearest = most;
    for (const [key, sets] of levels) {
      if (left <= 0 || key > pool.keyLimit()) return;
      const tried = promisingOf(context, sets, key);
      for (const { all } of tried) {
        if (pool.shouldStop()) return;
        tryTogether(pool, all);
      }
      left -= tried.length;
    }
  }
}

/** The sets of one price that are worth trying: as they are, and with all bends that come free re-clocked. */
function promisingOf(context: Context, sets: ChangeSets, key: number): readonly Promising[] {
  const { pool } = context;
  const bare: Promising[] = [];
  const freed: Promising[] = [];
  // Re-clockings on top cost something each. At the limit they help only where others can be left out for them.
  const mayAdd = key + LEAST_STEP <= pool.keyLimit() || sets.length < MANY_SETS;
  for (const [place, chosen] of sets.entries()) {
    if ((place & 255) === 0 && pool.shouldStop()) return [];
    const all = mayAdd ? withFreeClockings(context, chosen) : chosen;
    if (chosen.length === MOST_CHANGES || all.length === chosen.length) addPromising(bare, context, chosen, BARE_DOUBT);
    if (all.length > chosen.length) addPromising(freed, context, all, 1);
  }
  return [...mostPromising(bare), ...mostPromising(freed)];
}

interface Promising {
  /** In order along the tube. */
  readonly all: readonly Variable[];
  /** What is left of the miss after the step that the linear picture asks for, in tolerances. */
  readonly left: number;
}

function addPromising(
  list: Promising[],
  { pool, near, variables }: Context,
  chosen: readonly number[],
  most: number,
): void {
  if (near.doubt(chosen) > most) return;
  const steps = chosen
    .map((index, place) => ({ variable: variables[index] as Variable, by: near.step(place, index) }))
    .sort((a, b) => a.variable.screw.order - b.variable.screw.order);
  const screws = steps.map(({ variable }) => variable.screw);
  const values = steps.map(({ variable: { start, present, low, high }, by }) =>
    Math.min(high - present, Math.max(low - present, start - present + by)),
  );
  const { limits } = pool.aim.ends;
  const miss = missAt(pool.aim, screws, values);
  const left = (miss.gapMm + miss.outsideMm) / limits.gapMm + miss.tiltDeg / limits.tiltDeg;
  list.push({ all: steps.map(({ variable }) => variable), left });
}

function mostPromising(list: Promising[]): readonly Promising[] {
  return list.sort((a, b) => a.left - b.left).slice(0, MOST_PER_LEVEL);
}

type ChangeSets = (readonly number[])[];

/** All sets of one, two and three variables with a key in the range, by key, cheapest first. */
function changeSets(
  { pool: { tally }, variables }: Context,
  { above, most }: { readonly above: number; readonly most: number },
): readonly (readonly [number, ChangeSets])[] {
  const levels = new Map<number, ChangeSets>();
  const slots = variables.map(({ slot }) => slot);
  let count = 0;
  const keep = (key: number, chosen: readonly number[]) => {
    count += 1;
    const level = levels.get(key);
    if (level === undefined) levels.set(key, [chosen]);
    else level.push(chosen);
  };
  const add = (chosen: readonly number[], from: number) => {
    const lastSlot = slots[chosen.at(-1) ?? -1];
    for (let i = from; i < variables.length && count < MOST_SETS; i += 1) {
      if (slots[i] === lastSlot) continue;
      const variable = variables[i] as Variable;
      tally.push(variable);
      const { key } = tally;
      if (key <= most) {
        const isWhole = chosen.length === MOST_CHANGES - 1;
        // Most sets of three are too cheap for this range, and were looked into before: no list is made for those.
        if (key > above || !isWhole) {
          const set = [...chosen, i];
          if (key > above) keep(key, set);
          if (!isWhole) add(set, i + 1);
        }
      }
      tally.pop(variable);
    }
  };
  add([], 0);
  return [...levels].sort(([a], [b]) => a - b);
}

/** The set with every re-clocking that costs no further joint. */
function withFreeClockings({ pool: { tally }, variables, clockings }: Context, chosen: readonly number[]) {
  const all = [...chosen];
  for (const index of chosen) tally.push(variables[index] as Variable);
  for (const clocking of clockings) {
    if (all.length >= MOST_SCREWS) break;
    const { demand, isHeld } = variables[clocking] as Variable;
    if (isHeld || demand.kind !== 'oneOf' || chosen.includes(clocking)) continue;
    if (tally.priceOfTurning(demand.first, demand.last) === 0) all.push(clocking);
  }
  for (let last = chosen.length - 1; last >= 0; last -= 1) tally.pop(variables[chosen[last] as number] as Variable);
  return all;
}

function tryTogether(pool: MovePool, all: readonly Variable[]): void {
  const values = solved(
    pool,
    all,
    all.map(({ start, present }) => start - present),
  );
  if (values !== null) thinOut(pool, all, values);
}

/** Values that meet the aim, or null. */
function solved(pool: MovePool, variables: readonly Variable[], start: ArrayLike<number>): Float64Array | null {
  const screws = variables.map(({ screw }) => screw);
  const low = variables.map((one) => (one.isFixed ? 0 : one.low - one.present));
  const high = variables.map((one) => (one.isFixed ? 0 : one.high - one.present));
  const { values, miss } = settleEnd(pool.aim, screws, start, { low, high });
  pool.noteMiss(miss);
  return isMet(miss, pool.aim) ? values : null;
}

/** Leaves out re-clockings that the move can do without, those that turn least first, and offers what remains. */
function thinOut(pool: MovePool, variables: readonly Variable[], values: Float64Array): void {
  let kept = variables;
  let now = values;
  const byTurn = variables
    .map((variable, i) => ({ variable, turn: Math.abs(values[i] as number) }))
    .filter(({ variable }) => variable.kind === 'clocking')
    .sort((a, b) => a.turn - b.turn);
  for (const { variable } of byTurn) {
    const fewer = kept.filter((one) => one !== variable);
    if (fewer.length === 0) break;
    const start = fewer.map((one) => now[kept.indexOf(one)] as number);
    const without = solved(pool, fewer, start);
    if (without !== null) [kept, now] = [fewer, without];
  }
  if (!pool.offer(kept, now) && kept !== variables) pool.offer(variables, values);
}
