/** How the end of a tube moves as joints turn and straights change. A kernel in plain numbers: it runs hundreds of thousands of times in one search. */

import type { Vector } from '../../path/vector.ts';
import { MOST_UNKNOWNS } from './cholesky.ts';

/**
 * One thing that can change, as a screw where it lies in the present path. A turn goes about `axis` through `through`; a
 * slide along `slide` has the zero vector for an axis. `shift` is a jump that comes with it whatever its value.
 */
export interface Screw {
  readonly axis: Vector;
  readonly through: Vector;
  readonly slide: Vector;
  readonly shift: Vector;
  /** Gain in centreline length per radian or millimetre, and at once with the jump. */
  readonly lengthPer: number;
  readonly lengthShiftMm: number;
  /** Rises along the tube; screws are given in this order. */
  readonly order: number;
}

/** The most that one set of changes of a move has; there is room for `MOST_UNKNOWNS`. */
export const MOST_SCREWS = 12;
export const NO_VECTOR: Vector = { x: 0, y: 0, z: 0 };

/** How the end moves with each screw, six a screw. */
export interface EndMotion {
  /** Three coordinates of its point, then of its tangent. */
  readonly end: Float64Array;
  readonly gradients: Float64Array;
}

const result: EndMotion = { end: new Float64Array(6), gradients: new Float64Array(6 * MOST_UNKNOWNS) };
/** Axis and a point on it (or slide and zero) of each screw as it lies once the screws before it have moved. */
const moved = new Float64Array(6 * MOST_UNKNOWNS);
/** The motion of everything after the screws so far: a rotation by rows, then a translation. */
const motion = new Float64Array(12);

interface PresentEnd {
  readonly point: Vector;
  readonly tangent: Vector;
}

/**
 * End of the path after all screws, as in `endAfter`, and its derivatives by each value (the space Jacobian). The result is
 * overwritten by the next call. About 1 microsecond for 6 screws.
 */
export function moveEnd(screws: readonly Screw[], values: ArrayLike<number>, present: PresentEnd): EndMotion {
  endAfter(screws, values, present);
  const { end, gradients } = result;
  for (let i = 0; i < screws.length; i += 1) writeGradient(isTurn(screws[i] as Screw), 6 * i, end, gradients);
  return result;
}

/**
 * End of the path after all screws, by the product of exponentials at the present joints (R. W. Brockett, 1984): three coordinates
 * of the point, then of the tangent. `values` in radians and millimetres. Overwritten by the next call. Exact to rounding.
 */
export function endAfter(screws: readonly Screw[], values: ArrayLike<number>, present: PresentEnd): Float64Array {
  motion.fill(0);
  motion[0] = motion[4] = motion[8] = 1;
  for (let i = 0; i < screws.length; i += 1) advance(screws[i] as Screw, values[i] as number, i);
  const { end } = result;
  const { point, tangent } = present;
  for (let row = 0; row < 3; row += 1) {
    const a = motion[3 * row] as number;
    const b = motion[3 * row + 1] as number;
    const c = motion[3 * row + 2] as number;
    end[row] = a * point.x + b * point.y + c * point.z + (motion[9 + row] as number);
    end[3 + row] = a * tangent.x + b * tangent.y + c * tangent.z;
  }
  return end;
}

export function isTurn({ axis }: Screw): boolean {
  return axis.x !== 0 || axis.y !== 0 || axis.z !== 0;
}

/** Notes how the screw lies now, then adds its own motion to that of all before. */
function advance(screw: Screw, value: number, index: number): void {
  const m0 = motion[0] as number;
  const m1 = motion[1] as number;
  const m2 = motion[2] as number;
  const m3 = motion[3] as number;
  const m4 = motion[4] as number;
  const m5 = motion[5] as number;
  const m6 = motion[6] as number;
  const m7 = motion[7] as number;
  const m8 = motion[8] as number;
  const px = motion[9] as number;
  const py = motion[10] as number;
  const pz = motion[11] as number;
  const at = 6 * index;
  const turns = isTurn(screw);
  const line = turns ? screw.axis : screw.slide;
  moved[at] = m0 * line.x + m1 * line.y + m2 * line.z;
  moved[at + 1] = m3 * line.x + m4 * line.y + m5 * line.z;
  moved[at + 2] = m6 * line.x + m7 * line.y + m8 * line.z;
  const { through, shift } = screw;
  moved[at + 3] = m0 * through.x + m1 * through.y + m2 * through.z + px;
  moved[at + 4] = m3 * through.x + m4 * through.y + m5 * through.z + py;
  moved[at + 5] = m6 * through.x + m7 * through.y + m8 * through.z + pz;
  if (!turns) {
    // A slide by its value and its jump together, carried along by what came before.
    const x = line.x * value + shift.x;
    const y = line.y * value + shift.y;
    const z = line.z * value + shift.z;
    motion[9] = px + m0 * x + m1 * y + m2 * z;
    motion[10] = py + m3 * x + m4 * y + m5 * z;
    motion[11] = pz + m6 * x + m7 * y + m8 * z;
    return;
  }
  turnMotion(screw, value);
}

/** motion = motion o (turn about the axis through its point) o (jump). */
function turnMotion({ axis, through, shift }: Screw, turnRad: number): void {
  const cosine = Math.cos(turnRad);
  const sine = Math.sin(turnRad);
  const k = 1 - cosine;
  const { x, y, z } = axis;
  const r0 = cosine + k * x * x;
  const r1 = k * x * y - sine * z;
  const r2 = k * x * z + sine * y;
  const r3 = k * x * y + sine * z;
  const r4 = cosine + k * y * y;
  const r5 = k * y * z - sine * x;
  const r6 = k * x * z - sine * y;
  const r7 = k * y * z + sine * x;
  const r8 = cosine + k * z * z;
  // Everything after turns about `through`, having jumped by `shift` first.
  const armX = shift.x - through.x;
  const armY = shift.y - through.y;
  const armZ = shift.z - through.z;
  const tx = through.x + r0 * armX + r1 * armY + r2 * armZ;
  const ty = through.y + r3 * armX + r4 * armY + r5 * armZ;
  const tz = through.z + r6 * armX + r7 * armY + r8 * armZ;
  for (let row = 0; row < 3; row += 1) {
    const at = 3 * row;
    const a = motion[at] as number;
    const b = motion[at + 1] as number;
    const c = motion[at + 2] as number;
    motion[9 + row] = (motion[9 + row] as number) + a * tx + b * ty + c * tz;
    motion[at] = a * r0 + b * r3 + c * r6;
    motion[at + 1] = a * r1 + b * r4 + c * r7;
    motion[at + 2] = a * r2 + b * r5 + c * r8;
  }
}

function writeGradient(turns: boolean, at: number, end: Float64Array, gradients: Float64Array): void {
  const ax = moved[at] as number;
  const ay = moved[at + 1] as number;
  const az = moved[at + 2] as number;
  if (!turns) {
    gradients[at] = ax;
    gradients[at + 1] = ay;
    gradients[at + 2] = az;
    gradients[at + 3] = gradients[at + 4] = gradients[at + 5] = 0;
    return;
  }
  const x = (end[0] as number) - (moved[at + 3] as number);
  const y = (end[1] as number) - (moved[at + 4] as number);
  const z = (end[2] as number) - (moved[at + 5] as number);
  gradients[at] = ay * z - az * y;
  gradients[at + 1] = az * x - ax * z;
  gradients[at + 2] = ax * y - ay * x;
  const tx = end[3] as number;
  const ty = end[4] as number;
  const tz = end[5] as number;
  gradients[at + 3] = ay * tz - az * ty;
  gradients[at + 4] = az * tx - ax * tz;
  gradients[at + 5] = ax * ty - ay * tx;
}
