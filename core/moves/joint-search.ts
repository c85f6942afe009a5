/** Moves in which a few joints come apart and everything there may turn: what is left when straights alone will not do. */

import { MOST_SCREWS } from './end-motion.ts';
import { costKey, keyParts } from './move-cost.ts';
import type { MovePool } from './move-pool.ts';
import { NearSolutions } from './near-solutions.ts';
import { isMet, missAt, settleEnd } from './settle-end.ts';
import type { Variable } from './variables.ts';

const MOST_SETS = 65_000;
const MOST_TRIES = 800;
/** Sets that cost the same are tried by promise, and no more than so many. */
const MOST_PER_LEVEL = 30;
/** Three values for six figures: only where they fit well is it no accident. */
const BARE_DOUBT = 0.6;
/** Factor that keeps a key and the place of its set in one number. */
const PLACES = 65_536;

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
  const sets = changeSets(pool, variables);
  const context = { pool, near, variables };
  let left = MOST_TRIES;
  for (let from = 0; from < sets.order.length && left > 0; ) {
    const key = Math.floor((sets.order[from] as number) / PLACES);
    if (key > pool.keyLimit()) return;
    const bare: Promising[] = [];
    const freed: Promising[] = [];
    let next = from;
    for (; next < sets.order.length; next += 1) {
      const place = sets.order[next] as number;
      if (Math.floor(place / PLACES) !== key) break;
      if ((next & 255) === 0 && pool.shouldStop()) return;
      const chosen = sets.members[place % PLACES] as readonly number[];
      const all = withFreeClockings(pool, { variables, clockings, chosen, key });
      if (chosen.length === 3 || all.length === chosen.length) addPromising(bare, context, chosen, BARE_DOUBT);
      if (all.length > chosen.length) addPromising(freed, context, all, 1);
    }
    from = next;
    const tried = [...mostPromising(bare), ...mostPromising(freed)];
    for (const { all } of tried) {
      if (pool.shouldStop()) return;
      tryTogether(pool, all);
    }
    left -= tried.length;
  }
}

interface Promising {
  /** In order along the tube. */
  readonly all: readonly Variable[];
  /** What is left of the miss after the step that the linear picture asks for, in tolerances. */
  readonly left: number;
}

function addPromising(
  list: Promising[],
  {
    pool,
    near,
    variables,
  }: { readonly pool: MovePool; readonly near: NearSolutions; readonly variables: readonly Variable[] },
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

interface ChangeSets {
  readonly members: readonly (readonly number[])[];
  /** Key times `PLACES` plus the place of the set, cheapest first. */
  readonly order: Float64Array;
}

/** All sets of one, two and three variables that are cheap enough to get in. */
function changeSets(pool: MovePool, variables: readonly Variable[]): ChangeSets {
  const members: number[][] = [];
  const keys: number[] = [];
  const touched: Variable[] = [];
  const add = (chosen: number[], from: number) => {
    for (let i = from; i < variables.length && members.length < MOST_SETS; i += 1) {
      const variable = variables[i] as Variable;
      if (touched.some(({ slot }) => slot === variable.slot)) continue;
      touched.push(variable);
      const key = costKey(pool.problem, touched);
      if (pool.isWorthWhile(key)) {
        const set = [...chosen, i];
        members.push(set);
        keys.push(key);
        if (set.length < 3) add(set, i + 1);
      }
      touched.pop();
    }
  };
  add([], 0);
  const order = Float64Array.from(keys, (key, place) => key * PLACES + place).sort();
  return { members, order };
}

/** The set with every re-clocking that costs no further joint. */
function withFreeClockings(
  { problem }: MovePool,
  set: {
    readonly variables: readonly Variable[];
    readonly clockings: readonly number[];
    readonly chosen: readonly number[];
    readonly key: number;
  },
): readonly number[] {
  const all = [...set.chosen];
  const touched = set.chosen.map((index) => set.variables[index] as Variable);
  const before = keyParts(set.key);
  for (const clocking of set.clockings) {
    if (all.length >= MOST_SCREWS || set.chosen.includes(clocking)) continue;
    touched.push(set.variables[clocking] as Variable);
    const after = keyParts(costKey(problem, touched));
    if (after.joints === before.joints && after.held === before.held) all.push(clocking);
    touched.pop();
  }
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
