/** Closes a tube in joint space onto a pose and a length: damped Gauss-Newton in the space of what is off. A kernel, run hundreds of times in one search. */

import { MOST_UNKNOWNS, solvePositive } from '../../moves/turning/cholesky.ts';
import { moveEnd, NO_VECTOR, type Screw } from '../../moves/turning/end-motion.ts';
import type { Frame } from '../../path/frame.ts';
import { addScaled, cross, type Vector } from '../../path/vector.ts';
import type { TubeEnds, TubeShape } from './tube-shape.ts';

/** What a tube is closed onto, and how far each of its figures may go. */
export interface Closing {
  readonly ends: TubeEnds;
  readonly clrsMm: readonly number[];
  /** Null: any length will do. */
  readonly lengthMm: number | null;
  /** In the order of `valuesOf`; a figure whose limits are the same stays put. */
  readonly low: ArrayLike<number>;
  readonly high: ArrayLike<number>;
}

/** How many millimetres aside a radian of tilt counts as. */
const ARM_MM = 100;
/** What a step of each kind counts as much as: three tenths of a radian, and thirty millimetres. */
const TURN_UNIT = 0.3 ** 2;
const SLIDE_UNIT = 30 ** 2;
const MOST_ROUNDS = 40;
const MOST_STALLS = 5;
const MOST_PASSES = 4;
/** Sum of squares in mm that counts as closed: 1e-10 mm. One step more then takes it to rounding. */
const CLOSED = 1e-20;
const ROWS = 6;

const rows = new Float64Array(ROWS);
const jacobian = new Float64Array(ROWS * MOST_UNKNOWNS);
const matrix = new Float64Array(MOST_UNKNOWNS * MOST_UNKNOWNS);
const right = new Float64Array(MOST_UNKNOWNS);
const step = new Float64Array(MOST_UNKNOWNS);
const isHeld = new Uint8Array(MOST_UNKNOWNS);

/** First straight, then clocking, angle and straight of each bend. */
export function valuesOf({ straightsMm, bends }: TubeShape): Float64Array {
  const values = new Float64Array(3 * bends.length + 1);
  values[0] = straightsMm[0] ?? 0;
  for (const [i, { clockingRad, angleRad }] of bends.entries()) {
    values[3 * i + 1] = clockingRad;
    values[3 * i + 2] = angleRad;
    values[3 * i + 3] = straightsMm[i + 1] ?? 0;
  }
  return values;
}

export function shapeOf(values: ArrayLike<number>, clrsMm: readonly number[]): TubeShape {
  return {
    straightsMm: [values[0] as number, ...clrsMm.map((_, i) => values[3 * i + 3] as number)],
    bends: clrsMm.map((clrMm, i) => ({
      clrMm,
      clockingRad: values[3 * i + 1] as number,
      angleRad: values[3 * i + 2] as number,
    })),
  };
}

/** Screws of a tube whose figures are all zero, so that it lies in its own start: slide, clocking, bend, slide, and so on. */
export function screwsOf({ point, tangent, normal }: Frame, clrsMm: readonly number[]): readonly Screw[] {
  const plain = { through: NO_VECTOR, slide: NO_VECTOR, shift: NO_VECTOR, lengthShiftMm: 0, order: 0 };
  const slide: Screw = { ...plain, axis: NO_VECTOR, slide: tangent, lengthPer: 1 };
  const clocking: Screw = { ...plain, axis: tangent, through: point, lengthPer: 0 };
  const axis = cross(tangent, normal);
  const screws = [slide];
  for (const clrMm of clrsMm) {
    screws.push(clocking, { ...plain, axis, through: addScaled(point, normal, clrMm), lengthPer: clrMm }, slide);
  }
  return screws;
}

interface Task extends Closing {
  readonly screws: readonly Screw[];
  readonly across: readonly [Vector, Vector];
}

function across({ tangent, normal }: Frame): readonly [Vector, Vector] {
  return [normal, cross(tangent, normal)];
}

/**
 * The figures of a tube that ends in its inlet and has its length, near those given; null when the descent ends elsewhere.
 *
 * Unknowns: straights in mm, clockings and angles in radians, each within its limits; three times the bends and one. Equations: three of
 * the gap in mm, two of the tilt as 2 tan(tilt / 2) in the two planes of the inlet, times 100 mm, one of the length. With more
 * unknowns than equations the least step that would close is taken, in units of 30 mm and 0.3 radian: J W J' z = -r, step W J' z, with
 * Levenberg's damping (1944). What would leave its limits is held at them. Closed to 1e-10 mm and then taken a step further, so that the end is off by rounding
 * alone; tested on random tubes, re-traced by core/path. About 3 microseconds a round for three bends.
 */
export function closeShape(closing: Closing, start: ArrayLike<number>): Float64Array | null {
  const { ends, clrsMm } = closing;
  const task: Task = { ...closing, screws: screwsOf(ends.start, clrsMm), across: across(ends.wanted) };
  let values: Float64Array = held(task, start);
  let next: Float64Array = new Float64Array(values.length);
  let cost = linearise(task, values);
  let damping = 1e-2;
  let stalls = 0;
  for (let round = 0; round < MOST_ROUNDS && stalls < MOST_STALLS; round += 1) {
    const wasClosed = cost < CLOSED;
    solveStep(task, values, damping);
    for (let i = 0; i < values.length; i += 1) next[i] = within(task, i, (values[i] as number) + (step[i] as number));
    const nextCost = linearise(task, next);
    if (nextCost < cost) {
      stalls = nextCost > 0.5 * cost ? stalls + 1 : 0;
      [values, next] = [next, values];
      cost = nextCost;
      damping = Math.max(1e-13, damping / 20);
    } else if (!wasClosed) {
      linearise(task, values);
      damping *= 8;
      stalls += 1;
    }
    if (wasClosed) break;
  }
  return cost < CLOSED ? values : null;
}

function within({ low, high }: Closing, i: number, value: number): number {
  return Math.min(high[i] as number, Math.max(low[i] as number, value));
}

function held(closing: Closing, start: ArrayLike<number>): Float64Array {
  return Float64Array.from({ length: start.length }, (_, i) => within(closing, i, start[i] as number));
}

/** Fills what is off and its derivatives; returns the sum of squares, infinite where the end points straight back. */
function linearise(
  { screws, ends: { start, wanted }, across: [one, two], lengthMm }: Task,
  values: Float64Array,
): number {
  const { end, gradients } = moveEnd(screws, values, start);
  const { point, tangent } = wanted;
  const [tx, ty, tz] = [end[3] as number, end[4] as number, end[5] as number];
  const facing = 1 + tx * tangent.x + ty * tangent.y + tz * tangent.z;
  if (facing < 1e-9) return Number.POSITIVE_INFINITY;
  const arm = (2 * ARM_MM) / facing;
  rows[0] = (end[0] as number) - point.x;
  rows[1] = (end[1] as number) - point.y;
  rows[2] = (end[2] as number) - point.z;
  rows[3] = arm * (tx * one.x + ty * one.y + tz * one.z);
  rows[4] = arm * (tx * two.x + ty * two.y + tz * two.z);
  rows[5] = lengthMm === null ? 0 : lengthOf(screws, values) - lengthMm;
  for (let i = 0; i < screws.length; i += 1) {
    const [from, to] = [6 * i, ROWS * i];
    const [dx, dy, dz] = [gradients[from + 3] as number, gradients[from + 4] as number, gradients[from + 5] as number];
    const turning = (dx * tangent.x + dy * tangent.y + dz * tangent.z) / facing;
    jacobian[to] = gradients[from] as number;
    jacobian[to + 1] = gradients[from + 1] as number;
    jacobian[to + 2] = gradients[from + 2] as number;
    jacobian[to + 3] = arm * (dx * one.x + dy * one.y + dz * one.z) - (rows[3] as number) * turning;
    jacobian[to + 4] = arm * (dx * two.x + dy * two.y + dz * two.z) - (rows[4] as number) * turning;
    jacobian[to + 5] = lengthMm === null ? 0 : (screws[i] as Screw).lengthPer;
  }
  let sum = 0;
  for (let row = 0; row < ROWS; row += 1) sum += (rows[row] as number) ** 2;
  return sum;
}

function lengthOf(screws: readonly Screw[], values: Float64Array): number {
  let sumMm = 0;
  for (let i = 0; i < screws.length; i += 1) sumMm += (screws[i] as Screw).lengthPer * (values[i] as number);
  return sumMm;
}

/** The damped step of every figure, in `step`; those that press against their limits are held, and the rest make up for it. */
function solveStep(task: Task, values: Float64Array, damping: number): void {
  isHeld.fill(0);
  for (let i = 0; i < values.length; i += 1) if (task.low[i] === task.high[i]) isHeld[i] = 1;
  for (let pass = 0; pass < MOST_PASSES; pass += 1) {
    solveFree(task.lengthMm === null ? ROWS - 1 : ROWS, values.length, damping);
    let hasPressed = false;
    for (let i = 0; i < values.length; i += 1) {
      const value = values[i] as number;
      const by = step[i] as number;
      const presses = (by < 0 && value <= (task.low[i] as number)) || (by > 0 && value >= (task.high[i] as number));
      if (!presses) continue;
      isHeld[i] = 1;
      hasPressed = true;
    }
    if (!hasPressed) return;
  }
}

/** Figures come in threes after the first: straight, clocking, angle, straight and so on. */
function unitOf(i: number): number {
  return i % 3 === 0 ? SLIDE_UNIT : TURN_UNIT;
}

function solveFree(size: number, count: number, damping: number): void {
  matrix.fill(0);
  for (let i = 0; i < count; i += 1) {
    if (isHeld[i] === 1) continue;
    const at = ROWS * i;
    for (let a = 0; a < size; a += 1) {
      const weighted = unitOf(i) * (jacobian[at + a] as number);
      if (weighted === 0) continue;
      const row = a * MOST_UNKNOWNS;
      for (let b = 0; b <= a; b += 1)
        matrix[row + b] = (matrix[row + b] as number) + weighted * (jacobian[at + b] as number);
    }
  }
  let trace = 0;
  for (let a = 0; a < size; a += 1) trace += matrix[a * MOST_UNKNOWNS + a] as number;
  for (let a = 0; a < size; a += 1) {
    const at = a * MOST_UNKNOWNS + a;
    matrix[at] = (matrix[at] as number) * (1 + damping) + 1e-13 * trace;
    right[a] = -(rows[a] as number);
  }
  solvePositive(matrix, right, size);
  for (let i = 0; i < count; i += 1) {
    let by = 0;
    if (isHeld[i] !== 1)
      for (let a = 0; a < size; a += 1) by += (jacobian[ROWS * i + a] as number) * (right[a] as number);
    step[i] = by * unitOf(i);
  }
}
