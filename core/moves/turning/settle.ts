/** Puts the end where it must be by changing a few turns and straights together: damped Gauss-Newton on the miss. A kernel, run thousands of times in one search. */

import { radiansOf } from '../../units/angle.ts';
import { MOST_UNKNOWNS, solvePositive } from './cholesky.ts';
import { type EndMotion, MOST_SCREWS, moveEnd, type Screw } from './end-motion.ts';
import { type Aim, lengthAt, type Miss, missAt, outside } from './miss.ts';

/** Limits of the screws' values; a screw whose limits are the same stays put. */
export interface ValueLimits {
  readonly low: readonly number[];
  readonly high: readonly number[];
}

const ROWS = 9;
const MOST_ROUNDS = 24;
/** Rounds in a row that gain next to nothing. */
const MOST_STALLS = 3;
/** A radian and a millimetre in the units that the search counts its steps in. */
const TURN_UNIT_RAD = 0.05;
const SLIDE_UNIT_MM = 10;
/** Weight of the length aimed at, and of no slip, beside a tolerance: they decide only what tolerance leaves open. */
const PULL = 0.02;
/** Weight of staying where one starts: it only decides between solutions that are equally good. */
const STAY = 1e-3;
const LEAST_SCALE_MM = 0.02;
const LEAST_SCALE_DEG = 0.02;

const rows = new Float64Array(ROWS);
const jacobian = new Float64Array(ROWS * MOST_SCREWS);
const normal = new Float64Array(MOST_UNKNOWNS * MOST_UNKNOWNS);
const slope = new Float64Array(MOST_UNKNOWNS);
const step = new Float64Array(MOST_UNKNOWNS);
/** Of each screw, what its steps are counted in. */
const units = new Float64Array(MOST_UNKNOWNS);

export interface Settled {
  readonly values: Float64Array;
  readonly miss: Miss;
}

/**
 * Values near `start` that bring the end and the length into tolerance, as near to the length aimed at as that allows.
 *
 * Rows of the miss, each in units of its tolerance: two aside, one along outside the slip range, three of the
 * difference between directions, one of length outside the band; and weakly the slip and the distance from the length
 * aimed at. K. Levenberg's damping (1944); limits by holding back what would leave them. The best values found come back
 * even when they do not meet the aim: `isMet` tells. About 3 microseconds a round for 6 screws.
 */
export function settle(aim: Aim, screws: readonly Screw[], start: ArrayLike<number>, limits: ValueLimits): Settled {
  setUnits(screws);
  let values = clamped(start, limits, screws.length);
  let next: Float64Array = new Float64Array(screws.length);
  let cost = linearise(aim, { screws, values, start });
  let damping = 1e-4;
  let stalls = 0;
  for (let round = 0; round < MOST_ROUNDS && stalls < MOST_STALLS; round += 1) {
    setNormal(screws.length, { values, start });
    if (!solveStep(screws.length, damping, { values, limits })) break;
    putStepped(next, values, limits);
    const nextCost = linearise(aim, { screws, values: next, start });
    if (nextCost < cost) {
      const gain = cost - nextCost;
      stalls = gain < 0.1 * cost ? stalls + 1 : 0;
      const isDone = gain < 1e-9 * cost + 1e-14;
      [values, next] = [next, values];
      cost = nextCost;
      damping = Math.max(1e-9, damping / 10);
      if (isDone) break;
    } else {
      linearise(aim, { screws, values, start });
      damping *= 10;
      stalls += 1;
    }
  }
  return { values, miss: missAt(aim, screws, values) };
}

function setUnits(screws: readonly Screw[]): void {
  for (let i = 0; i < screws.length; i += 1) {
    const { slide } = screws[i] as Screw;
    units[i] = slide.x === 0 && slide.y === 0 && slide.z === 0 ? TURN_UNIT_RAD : SLIDE_UNIT_MM;
  }
}

/** Writes the values after the step, held within their limits. */
function putStepped(next: Float64Array, values: Float64Array, { low, high }: ValueLimits): void {
  for (let i = 0; i < values.length; i += 1) {
    const to = (values[i] as number) + (step[i] as number) * (units[i] as number);
    next[i] = Math.min(high[i] as number, Math.max(low[i] as number, to));
  }
}

function clamped(start: ArrayLike<number>, { low, high }: ValueLimits, count: number): Float64Array {
  const values = new Float64Array(count);
  for (let i = 0; i < count; i += 1) {
    values[i] = Math.min(high[i] as number, Math.max(low[i] as number, start[i] as number));
  }
  return values;
}

interface At {
  readonly screws: readonly Screw[];
  readonly values: Float64Array;
  readonly start: ArrayLike<number>;
}

/** Fills `rows` and `jacobian` at the values and returns half the sum of squares, staying included. */
function linearise(aim: Aim, { screws, values, start }: At): number {
  const motion = moveEnd(screws, values, aim.ends.end);
  fillRows(aim, motion, lengthAt(aim, screws, values), screws);
  let sum = 0;
  for (let row = 0; row < ROWS; row += 1) sum += (rows[row] as number) ** 2;
  for (let i = 0; i < screws.length; i += 1) {
    sum += ((STAY * ((values[i] as number) - (start[i] as number))) / (units[i] as number)) ** 2;
  }
  return sum / 2;
}

/** Rows of the miss, then a column of derivatives for each screw. */
function fillRows(aim: Aim, { end, gradients }: EndMotion, lengthMm: number, screws: readonly Screw[]): void {
  const { axes, window } = aim;
  const { wanted, limits } = aim.ends;
  const perMm = 1 / Math.max(LEAST_SCALE_MM, limits.gapMm);
  const perRad = 1 / radiansOf(Math.max(LEAST_SCALE_DEG, limits.tiltDeg));
  const x = (end[0] as number) - wanted.point.x;
  const y = (end[1] as number) - wanted.point.y;
  const z = (end[2] as number) - wanted.point.z;
  const { one, two, along } = axes;
  const alongMm = along.x * x + along.y * y + along.z * z;
  const beyondMm = outside(alongMm, -limits.shallowerMm, limits.deeperMm);
  const outsideMm = outside(lengthMm, window.lowMm, window.highMm);
  rows[0] = (one.x * x + one.y * y + one.z * z) * perMm;
  rows[1] = (two.x * x + two.y * y + two.z * z) * perMm;
  rows[2] = beyondMm * perMm;
  rows[3] = ((end[3] as number) - wanted.tangent.x) * perRad;
  rows[4] = ((end[4] as number) - wanted.tangent.y) * perRad;
  rows[5] = ((end[5] as number) - wanted.tangent.z) * perRad;
  rows[6] = outsideMm * perMm;
  rows[7] = alongMm * perMm * PULL * 0.1;
  rows[8] = (lengthMm - window.aimMm) * perMm * PULL;
  const kept = { axes, perMm, perRad, isWithinSlip: beyondMm === 0, isInBand: outsideMm === 0 };
  for (let i = 0; i < screws.length; i += 1) {
    fillColumn(i, gradients, { ...kept, unit: units[i] as number, lengthPer: (screws[i] as Screw).lengthPer });
  }
}

interface ColumnScale extends Pick<Aim, 'axes'> {
  readonly perMm: number;
  readonly perRad: number;
  readonly unit: number;
  readonly lengthPer: number;
  readonly isWithinSlip: boolean;
  readonly isInBand: boolean;
}

function fillColumn(i: number, gradients: Float64Array, scale: ColumnScale): void {
  const { one, two, along } = scale.axes;
  const { unit, perMm, perRad } = scale;
  const at = ROWS * i;
  const from = 6 * i;
  const dx = (gradients[from] as number) * unit * perMm;
  const dy = (gradients[from + 1] as number) * unit * perMm;
  const dz = (gradients[from + 2] as number) * unit * perMm;
  const deepens = along.x * dx + along.y * dy + along.z * dz;
  const lengthens = scale.lengthPer * unit * perMm;
  jacobian[at] = one.x * dx + one.y * dy + one.z * dz;
  jacobian[at + 1] = two.x * dx + two.y * dy + two.z * dz;
  jacobian[at + 2] = scale.isWithinSlip ? 0 : deepens;
  jacobian[at + 3] = (gradients[from + 3] as number) * unit * perRad;
  jacobian[at + 4] = (gradients[from + 4] as number) * unit * perRad;
  jacobian[at + 5] = (gradients[from + 5] as number) * unit * perRad;
  jacobian[at + 6] = scale.isInBand ? 0 : lengthens;
  jacobian[at + 7] = deepens * PULL * 0.1;
  jacobian[at + 8] = lengthens * PULL;
}

/** Normal equations, lower half, and the slope. */
function setNormal(count: number, at: Omit<At, 'screws'>): void {
  for (let i = 0; i < count; i += 1) {
    const own = ROWS * i;
    let pull = (STAY * STAY * ((at.values[i] as number) - (at.start[i] as number))) / (units[i] as number);
    for (let row = 0; row < ROWS; row += 1) pull += (jacobian[own + row] as number) * (rows[row] as number);
    slope[i] = pull;
    for (let j = 0; j <= i; j += 1) {
      const other = ROWS * j;
      let sum = i === j ? STAY * STAY : 0;
      for (let row = 0; row < ROWS; row += 1)
        sum += (jacobian[own + row] as number) * (jacobian[other + row] as number);
      normal[i * MOST_UNKNOWNS + j] = sum;
    }
  }
}

const damped = new Float64Array(MOST_UNKNOWNS * MOST_UNKNOWNS);
const answer = new Float64Array(MOST_UNKNOWNS);
const free = new Int32Array(MOST_UNKNOWNS);

/** The damped step, with values that press against their limits left out. False: nothing can move. */
function solveStep(
  count: number,
  damping: number,
  { values, limits }: { readonly values: Float64Array; readonly limits: ValueLimits },
): boolean {
  let size = 0;
  for (let i = 0; i < count; i += 1) {
    step[i] = 0;
    const value = values[i] as number;
    const pressesLow = value <= (limits.low[i] as number) && (slope[i] as number) >= 0;
    const pressesHigh = value >= (limits.high[i] as number) && (slope[i] as number) <= 0;
    if (!pressesLow && !pressesHigh) {
      free[size] = i;
      size += 1;
    }
  }
  for (let a = 0; a < size; a += 1) {
    const i = free[a] as number;
    answer[a] = -(slope[i] as number);
    for (let b = 0; b <= a; b += 1) {
      const entry = normal[i * MOST_UNKNOWNS + (free[b] as number)] as number;
      damped[a * MOST_UNKNOWNS + b] = a === b ? entry + damping * (1 + entry) : entry;
    }
  }
  solvePositive(damped, answer, size);
  for (let a = 0; a < size; a += 1) step[free[a] as number] = answer[a] as number;
  return size > 0;
}
