/** Moves with one or two turns worked out in closed form, and up to as many straights as make three changes. */

import { distance, dot, magnitude, subtract, turnAbout, type Vector } from '../../path/vector.ts';
import { radiansOf } from '../../units/angle.ts';
import { moveEnd } from '../turning/end-motion.ts';
import { inAxes, missWindows } from '../linear/shift-windows.ts';
import type { MovePool } from '../ranking/move-pool.ts';
import { searchShifts } from '../linear/shift-search.ts';
import { shiftOption } from '../linear/shift-options.ts';
import { oneTurn, twoTurns } from '../turning/turn-seeds.ts';
import type { Variable } from '../problem/variables.ts';

const MOST_CHANGES = 3;
const STILL_RAD = 1e-4;

export interface SearchVariables {
  /** Re-clockings, bends cut to another angle, and bends of another CLR with their angle free. */
  readonly turns: readonly Variable[];
  /** Straights, and bends of another CLR at the same angle. */
  readonly shifts: readonly Variable[];
}

/** Straights only: exact, up to `mostChanges` of them at once. */
export function searchStraights(pool: MovePool, shifts: readonly Variable[], mostChanges: number): void {
  searchWith(pool, shifts, { turns: [], values: [], mostChanges, extraMm: 0 });
}

/** Every set of one or two turns that keeps the end's direction, with what straights must then do. */
export function searchTurns(pool: MovePool, { turns, shifts }: SearchVariables): void {
  const { ends } = pool.aim;
  const slackRad = radiansOf(ends.limits.tiltDeg);
  const from = ends.end.tangent;
  const to = ends.wanted.tangent;
  const extraMm = Math.min(4, slackRad * reachMm(pool));
  for (const variable of turns) {
    if (pool.shouldStop()) return;
    if (!pool.isWorthWhile(pool.keyOf([variable]))) continue;
    for (const turn of oneTurn(variable.screw.axis, from, to, slackRad)) {
      if (isStill(variable, turn)) continue;
      searchWith(pool, shifts, { turns: [variable], values: [turn], mostChanges: MOST_CHANGES - 1, extraMm });
    }
  }
  for (const [i, first] of turns.entries()) {
    for (const second of turns.slice(i + 1)) {
      if (pool.shouldStop()) return;
      if (first.slot === second.slot || !pool.isWorthWhile(pool.keyOf([first, second]))) continue;
      const axes = { first: first.screw.axis, second: second.screw.axis };
      for (const values of twoTurns(axes, from, to, slackRad)) {
        if (isStill(first, values[0]) || isStill(second, values[1])) continue;
        searchWith(pool, shifts, { turns: [first, second], values, mostChanges: MOST_CHANGES - 2, extraMm });
      }
    }
  }
  searchSwaps(pool, shifts, extraMm);
}

/** Bends of another CLR at the same angle, with straights: nothing turns, but all is settled together in the end. */
function searchSwaps(pool: MovePool, shifts: readonly Variable[], extraMm: number): void {
  const swaps = shifts.filter(({ kind }) => kind === 'swap');
  if (swaps.length === 0) return;
  const others = shifts.filter(({ kind }) => kind !== 'swap');
  const leads = swaps.length;
  searchWith(pool, [...swaps, ...others], { turns: [], values: [], mostChanges: MOST_CHANGES, extraMm, leads });
}

/** Whether a turn is too small to say: the search without it, or with a bend of another CLR as a mere shift, has had it. */
function isStill({ kind, start, present }: Variable, value: number): boolean {
  return Math.abs(value) < STILL_RAD && (kind !== 'swap' || start === present);
}

function reachMm({ aim: { ends } }: MovePool): number {
  return Math.max(...ends.joints.map(({ point }) => distance(point, ends.end.point)));
}

interface Turned {
  readonly turns: readonly Variable[];
  readonly values: readonly number[];
  readonly mostChanges: number;
  /** How much the windows are widened because the turns may still be settled a little. */
  readonly extraMm: number;
  /** Every set holds one of the first so many shifts; any will do when it is left out. */
  readonly leads?: number;
}

function searchWith(pool: MovePool, shifts: readonly Variable[], turned: Turned): void {
  const { aim, problem } = pool;
  const { turns, extraMm } = turned;
  const values = turns.map((variable, i) => bounded(variable, turned.values[i] ?? 0));
  if (values.some((value) => value === null)) return;
  const turnValues = values as readonly number[];
  const { end } = moveEnd(
    turns.map(({ screw }) => screw),
    turnValues,
    aim.ends.end,
  );
  const tangent = { x: end[3] as number, y: end[4] as number, z: end[5] as number };
  if (dot(tangent, aim.ends.wanted.tangent) < 0.999) return;
  const point = { x: end[0] as number, y: end[1] as number, z: end[2] as number };
  const lengthMm = turns.reduce(
    (sum, { screw }, i) => sum + screw.lengthShiftMm + screw.lengthPer * (turnValues[i] as number),
    aim.window.presentMm - aim.window.aimMm,
  );
  const taken = turns.map(({ slot }) => slot);
  const gap = subtract(point, aim.ends.wanted.point);
  const miss = inAxes(aim.axes, gap, lengthMm);
  const windows = missWindows(aim.ends.limits, aim.window, { ...problem.missWeights, extraMm });
  const slackMm = windows.reduce((sum, { low, high }) => sum + Math.max(-low, high), 0);
  const useful = shifts.filter(
    (variable) =>
      !taken.includes(variable.slot) && (turned.mostChanges > 1 || mayMend(variable, gap, lengthMm, slackMm)),
  );
  if (useful.length === 0 && magnitude(gap) + Math.abs(lengthMm) > 2 * slackMm) return;
  const direction = turnedDirection(turns, turnValues);
  const options = useful.map((variable) => shiftOption(problem, variable, aim.axes, direction));
  searchShifts({
    options,
    leads: turned.leads ?? options.length,
    miss,
    windows,
    touched: turns,
    mostChanges: turned.mostChanges,
    tally: pool.tally,
    keyLimit: pool.keyLimit,
    shouldStop: pool.shouldStop,
    found: ({ chosen, values: shiftValues }) => {
      const all = [
        ...turns.map((variable, i) => ({ variable, value: turnValues[i] as number })),
        ...chosen.map(({ variable }, i) => ({ variable, value: (shiftValues[i] as number) - variable.present })),
      ].sort((a, b) => a.variable.screw.order - b.variable.screw.order);
      const variables = all.map(({ variable }) => variable);
      const start = all.map(({ value }) => value);
      if (turns.length > 0 || turned.leads !== undefined) return pool.settle(variables, start);
      return all.every(isChange) && pool.offer(variables, start);
    },
  });
}

function isChange({ variable, value }: { readonly variable: Variable; readonly value: number }): boolean {
  return variable.kind !== 'length' || Math.abs(value) > 1e-7;
}

/** Whether one shift alone can be the whole of a gap and of a length, whatever its direction: by their sizes. */
function mayMend({ kind, screw }: Variable, gap: Vector, lengthMm: number, slackMm: number): boolean {
  const gapMm = magnitude(gap);
  if (kind !== 'takeOut' && kind !== 'swap')
    return Math.abs(gapMm - Math.abs(lengthMm + screw.lengthShiftMm)) <= slackMm;
  return Math.abs(gapMm - magnitude(screw.shift)) <= slackMm && Math.abs(lengthMm + screw.lengthShiftMm) <= slackMm;
}

/** The value of a turn within its limits, clockings by the shorter way; null when it is out of them. */
function bounded({ kind, present, low, high }: Variable, value: number): number | null {
  if (kind === 'clocking') return value;
  const whole = 2 * Math.PI;
  const total = (((present + value) % whole) + whole) % whole;
  const slack = radiansOf(0.5);
  return total < low - slack || total > high + slack ? null : Math.min(high, Math.max(low, total)) - present;
}

function turnedDirection(
  turns: readonly Variable[],
  values: readonly number[],
): (direction: Vector, order: number) => Vector {
  return (direction, order) => {
    let turned = direction;
    for (let i = turns.length - 1; i >= 0; i -= 1) {
      const { screw } = turns[i] as Variable;
      if (screw.order < order) turned = turnAbout(screw.axis, turned, values[i] as number);
    }
    return turned;
  };
}
