/** Puts the end where it must be by changing a few turns and straights together: damped Gauss-Newton on the miss. A kernel, run thousands of times in one search. */

import { radiansOf } from '../../units/angle.ts';
import { MOST_UNKNOWNS, solvePositive } from './cholesky.ts';
import { type EndMotion, MOST_SCREWS, moveEnd, type Screw } from './end-motion.ts';
import { type Aim, lengthAt, type Miss, missAt } from './miss.ts';
import { countsAfter, outsideAfter, type Range, setRange } from './range.ts';

/** Limits of the screws' values; a screw whose limits are the same stays put. */
export interface ValueLimits {
  readonly low: readonly number[];
  readonly high: readonly number[];
}

const ROWS = 9;
/** Rows that always count; the last two, slip and band, count only outside their ranges. */
const WHOLE_ROWS = 7;
const ALONG_ROW = 7;
const LENGTH_ROW = 8;
/** Looks at which of slip and band count after a step; more are hardly ever needed. */
const MOST_LOOKS = 3;
const MOST_ROUNDS = 24;
/** Rounds in a row that gain next to nothing. */
const MOST_STALLS = 4;
/** A step that was refused is damped at least so much: less hardly shortens it, and it would be refused again. */
const LEAST_REFUSED_DAMPING = 1e-2;
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
 * Rows of the miss, each in units of its tolerance: two aside, three of the difference between directions, one along outside
 * the slip range, one of length outside the band; and weakly the slip and the distance from the length
 * aimed at. Slip and band count in a step if its end is outside them, wherever it begins: a step that only saw where it begins
 * would run out of a wide range as far as it liked, be refused, and stall at the edge. K. Levenberg's damping (1944); limits by
 * holding back what would leave them. The best values found come back
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
      damping = Math.max(LEAST_REFUSED_DAMPING, damping * 10);
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
  setRange(alongRange, alongMm * perMm, -limits.shallowerMm * perMm, limits.deeperMm * perMm);
  setRange(lengthRange, lengthMm * perMm, window.lowMm * perMm, window.highMm * perMm);
  rows[0] = (one.x * x + one.y * y + one.z * z) * perMm;
  rows[1] = (two.x * x + two.y * y + two.z * z) * perMm;
  rows[2] = ((end[3] as number) - wanted.tangent.x) * perRad;
  rows[3] = ((end[4] as number) - wanted.tangent.y) * perRad;
  rows[4] = ((end[5] as number) - wanted.tangent.z) * perRad;
  rows[5] = alongMm * perMm * PULL * 0.1;
  rows[6] = (lengthMm - window.aimMm) * perMm * PULL;
  rows[ALONG_ROW] = outsideAfter(alongRange, 0);
  rows[LENGTH_ROW] = outsideAfter(lengthRange, 0);
  const scale = { axes, perMm, perRad };
  for (let i = 0; i < screws.length; i += 1) fillColumn(i, gradients, (screws[i] as Screw).lengthPer, scale);
}

interface ColumnScale extends Pick<Aim, 'axes'> {
  readonly perMm: number;
  readonly perRad: number;
}

function fillColumn(i: number, gradients: Float64Array, lengthPer: number, scale: ColumnScale): void {
  const { one, two, along } = scale.axes;
  const { perMm, perRad } = scale;
  const unit = units[i] as number;
  const at = ROWS * i;
  const from = 6 * i;
  const dx = (gradients[from] as number) * unit * perMm;
  const dy = (gradients[from + 1] as number) * unit * perMm;
  const dz = (gradients[from + 2] as number) * unit * perMm;
  const deepens = along.x * dx + along.y * dy + along.z * dz;
  const lengthens = lengthPer * unit * perMm;
  jacobian[at] = one.x * dx + one.y * dy + one.z * dz;
  jacobian[at + 1] = two.x * dx + two.y * dy + two.z * dz;
  jacobian[at + 2] = (gradients[from + 3] as number) * unit * perRad;
  jacobian[at + 3] = (gradients[from + 4] as number) * unit * perRad;
  jacobian[at + 4] = (gradients[from + 5] as number) * unit * perRad;
  jacobian[at + 5] = deepens * PULL * 0.1;
  jacobian[at + 6] = lengthens * PULL;
  jacobian[at + ALONG_ROW] = deepens;
  jacobian[at + LENGTH_ROW] = lengthens;
}

const alongRange: Range = { aboveLow: 0, aboveHigh: 0 };
const lengthRange: Range = { aboveLow: 0, aboveHigh: 0 };

/** Normal equations of what always counts, lower half, and the slope. */
function setNormal(count: number, at: Omit<At, 'screws'>): void {
  for (let i = 0; i < count; i += 1) {
    const own = ROWS * i;
    let pull = (STAY * STAY * ((at.values[i] as number) - (at.start[i] as number))) / (units[i] as number);
    for (let row = 0; row < WHOLE_ROWS; row += 1) pull += (jacobian[own + row] as number) * (rows[row] as number);
    slope[i] = pull;
    for (let j = 0; j <= i; j += 1) {
      const other = ROWS * j;
      let sum = i === j ? STAY * STAY : 0;
      for (let row = 0; row < WHOLE_ROWS; row += 1)
        sum += (jacobian[own + row] as number) * (jacobian[other + row] as number);
      normal[i * MOST_UNKNOWNS + j] = sum;
    }
  }
}

const damped = new Float64Array(MOST_UNKNOWNS * MOST_UNKNOWNS);
const answer = new Float64Array(MOST_UNKNOWNS);
const free = new Int32Array(MOST_UNKNOWNS);

interface Held {
  readonly values: Float64Array;
  readonly limits: ValueLimits;
}

/** The damped step, with slip and band counting as they lie where it ends. False: nothing can move. */
function solveStep(count: number, damping: number, held: Held): boolean {
  let alongOff = countsAfter(alongRange, 0);
  let lengthOff = countsAfter(lengthRange, 0);
  for (let look = 1; ; look += 1) {
    if (!solveWith(count, damping, { ...held, alongOff, lengthOff })) return false;
    const nextAlong = countsAfter(alongRange, changeOf(ALONG_ROW, count));
    const nextLength = countsAfter(lengthRange, changeOf(LENGTH_ROW, count));
    if (look === MOST_LOOKS || (nextAlong === alongOff && nextLength === lengthOff)) return true;
    alongOff = nextAlong;
    lengthOff = nextLength;
  }
}

/** By how much the step changes the figure of a row. */
function changeOf(row: number, count: number): number {
  let change = 0;
  for (let i = 0; i < count; i += 1) change += (jacobian[ROWS * i + row] as number) * (step[i] as number);
  return change;
}

interface Counting extends Held {
  /** Null: does not count. */
  readonly alongOff: number | null;
  readonly lengthOff: number | null;
}

/** The damped step, with values that press against their limits left out. False: nothing can move. */
function solveWith(count: number, damping: number, { values, limits, alongOff, lengthOff }: Counting): boolean {
  let size = 0;
  for (let i = 0; i < count; i += 1) {
    step[i] = 0;
    const value = values[i] as number;
    let pull = slope[i] as number;
    if (alongOff !== null) pull += (jacobian[ROWS * i + ALONG_ROW] as number) * alongOff;
    if (lengthOff !== null) pull += (jacobian[ROWS * i + LENGTH_ROW] as number) * lengthOff;
    const pressesLow = value <= (limits.low[i] as number) && pull >= 0;
    const pressesHigh = value >= (limits.high[i] as number) && pull <= 0;
    if (!pressesLow && !pressesHigh) {
      free[size] = i;
      answer[size] = -pull;
      size += 1;
    }
  }
  const along = alongOff === null ? 0 : 1;
  const length = lengthOff === null ? 0 : 1;
  for (let a = 0; a < size; a += 1) {
    const i = free[a] as number;
    const alongHere = along * (jacobian[ROWS * i + ALONG_ROW] as number);
    const lengthHere = length * (jacobian[ROWS * i + LENGTH_ROW] as number);
    for (let b = 0; b <= a; b += 1) {
      const j = free[b] as number;
      const entry =
        (normal[i * MOST_UNKNOWNS + j] as number) +
        alongHere * (jacobian[ROWS * j + ALONG_ROW] as number) +
        lengthHere * (jacobian[ROWS * j + LENGTH_ROW] as number);
      damped[a * MOST_UNKNOWNS + b] = a === b ? entry + damping * (1 + entry) : entry;
    }
  }
  solvePositive(damped, answer, size);
  for (let a = 0; a < size; a += 1) step[free[a] as number] = answer[a] as number;
  return size > 0;
}
