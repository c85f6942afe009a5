/** Straights for a choice of turns: once the turns have values, what is left is linear. */

import { dot, magnitude, subtract, turnAbout, type Vector } from '../../path/vector.ts';
import { radiansOf } from '../../units/angle.ts';
import { type Shift, shiftOf } from '../linear/shift.ts';
import { type ShiftOption, shiftOption } from '../linear/shift-option.ts';
import { type ShiftChoice, searchShifts } from '../linear/shift-search.ts';
import { type ShiftWindows, shiftWindows } from '../linear/shift-windows.ts';
import { enterMove, settledValues, withFewerJoints } from '../offer/enter-move.ts';
import type { Variable } from '../problem/variable.ts';
import type { Search } from '../search.ts';
import { endAfter } from '../turning/end-motion.ts';

export interface Turned {
  readonly turns: readonly Variable[];
  readonly values: readonly number[];
  readonly mostChanges: number;
  /** How much the windows are widened because the turns may still be settled a little. */
  readonly extraMm: number;
  /** Every set holds one of the first so many shifts, which are bends of another CLR; any will do when it is left out. */
  readonly leads?: number;
}

/** Looks for straights that make a move of the turns; turns out of their limits, or that leave the end leaning, make none. */
export function* searchTurned(search: Search, shifts: readonly Variable[], turned: Turned): Generator<void, void> {
  const { problem, aim, best, tally, pricer } = search;
  const { turns, extraMm, mostChanges } = turned;
  const values = boundedValues(turned);
  const ending = values === null ? null : endingWith(search, turns, values);
  if (values === null || ending === null) return;
  const windows = shiftWindows(aim.ends.limits, aim.window, { ...problem.closeness, extraMm });
  const useful = usefulShifts(shifts, turned, ending, windows);
  if (useful === null) return;
  const direction = turnedDirection(turns, values);
  const options = useful.map((variable) => shiftOption(problem, variable, aim.axes, direction));
  const leads =
    turned.leads === undefined ? options.length : options.filter(({ variable }) => variable.kind === 'swap').length;
  if (turned.leads === undefined) options.sort((a, b) => outFirst(a) - outFirst(b));
  yield* searchShifts({
    options,
    leads,
    off: ending.off,
    windows,
    touched: turns,
    mostChanges,
    tally,
    pricer,
    keyLimit: turns.some(({ bends = 0 }) => bends > 0) ? best.keyLimitOfBend : best.keyLimit,
    found: (choice) => enterChoice(search, turned, values, choice),
  });
}

function outFirst({ variable }: ShiftOption): number {
  return variable.kind === 'takeOut' ? 0 : 1;
}

interface Ending {
  readonly gap: Vector;
  readonly lengthMm: number;
  readonly off: Shift;
}

/** Less than this of the end's direction may lie along the inlet's: a lean of 2.6 degrees. */
const LEAST_COSINE = 0.999;

/** How far off the end is with the turns made; null when it leans too far for straights alone. */
function endingWith({ aim }: Search, turns: readonly Variable[], values: readonly number[]): Ending | null {
  const screws = turns.map(({ screw }) => screw);
  const end = endAfter(screws, values, aim.ends.end);
  const tangent = { x: end[3] as number, y: end[4] as number, z: end[5] as number };
  if (dot(tangent, aim.ends.wanted.tangent) < LEAST_COSINE) return null;
  const point = { x: end[0] as number, y: end[1] as number, z: end[2] as number };
  const lengthMm = screws.reduce(
    (sum, { lengthShiftMm, lengthPer }, i) => sum + lengthShiftMm + lengthPer * (values[i] as number),
    aim.window.presentMm - aim.window.aimMm,
  );
  const gap = subtract(point, aim.ends.wanted.point);
  return { gap, lengthMm, off: shiftOf(aim.axes, gap, lengthMm) };
}

/** Shifts of pieces that are not turned, and where one alone must do, those of the right size; null when nothing can be done. */
function usefulShifts(
  shifts: readonly Variable[],
  { turns, mostChanges }: Turned,
  { gap, lengthMm }: Ending,
  windows: ShiftWindows,
): readonly Variable[] | null {
  const taken = turns.map(({ slot }) => slot);
  const slackMm = windows.reduce((sum, { low, high }) => sum + Math.max(-low, high), 0);
  const useful = shifts.filter(
    (variable) => !taken.includes(variable.slot) && (mostChanges > 1 || mayMend(variable, gap, lengthMm, slackMm)),
  );
  return useful.length === 0 && magnitude(gap) + Math.abs(lengthMm) > 2 * slackMm ? null : useful;
}

/** Whether one shift alone can be the whole of a gap and of a length, whatever its direction: by their sizes. */
function mayMend({ kind, screw }: Variable, gap: Vector, lengthMm: number, slackMm: number): boolean {
  const gapMm = magnitude(gap);
  if (kind !== 'takeOut' && kind !== 'swap')
    return Math.abs(gapMm - Math.abs(lengthMm + screw.lengthShiftMm)) <= slackMm;
  return Math.abs(gapMm - magnitude(screw.shift)) <= slackMm && Math.abs(lengthMm + screw.lengthShiftMm) <= slackMm;
}

/** With turns all is settled together once more; straights alone are exact as they are. */
function enterChoice(
  search: Search,
  { turns, leads }: Turned,
  turnValues: readonly number[],
  { chosen, values }: ShiftChoice,
): boolean {
  const all = [
    ...turns.map((variable, i) => ({ variable, value: turnValues[i] as number })),
    ...chosen.map(({ variable }, i) => ({ variable, value: (values[i] as number) - variable.present })),
  ].sort((a, b) => a.variable.screw.order - b.variable.screw.order);
  const variables = all.map(({ variable }) => variable);
  const start = all.map(({ value }) => value);
  if (turns.length === 0 && leads === undefined) return all.every(isChange) && enterMove(search, variables, start);
  const settled = settledValues(search, variables, start);
  return settled !== null && enterMove(search, variables, withFewerJoints(search, variables, settled));
}

function isChange({ variable, value }: { readonly variable: Variable; readonly value: number }): boolean {
  return variable.kind !== 'length' || Math.abs(value) > 1e-7;
}

function boundedValues({ turns, values }: Turned): readonly number[] | null {
  const bounded = turns.map((variable, i) => boundedValue(variable, values[i] ?? 0));
  return bounded.some((value) => value === null) ? null : (bounded as readonly number[]);
}

/** The value of a turn within its limits, clockings by the shorter way; null when it is out of them. */
function boundedValue({ kind, present, low, high }: Variable, value: number): number | null {
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
