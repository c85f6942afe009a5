/** Rounds a tube to what a saw and an angle gauge can do: the angles first, then the straights, which make up for them. */

import type { SawStep } from '../../moves/offer/saw-steps.ts';
import { MOST_UNKNOWNS, solvePositive } from '../../moves/turning/cholesky.ts';
import { type ClosureLimits, closureOf } from '../../path/ends/closure.ts';
import { clockBy, type Frame, goRound } from '../../path/frame.ts';
import { addScaled, dot, subtract, type Vector, wrapDeg } from '../../path/vector.ts';
import { degreesOf, radiansOf } from '../../units/angle.ts';
import { type Length, type LengthUnit, lengthIn, MM_PER_INCH } from '../../units/length.ts';
import { type LeastStraights, leastAt, type TubeEnds, type TubeShape } from '../joints/tube-shape.ts';
import type { WantedWindow } from '../problem/wanted-window.ts';

export interface RoundedBend {
  readonly clrMm: number;
  readonly angleDeg: number;
  /** Over (-180, 180]. */
  readonly clockingDeg: number;
}

/** A tube in figures that can be sawn and set. */
export interface RoundedShape {
  readonly straights: readonly Length[];
  readonly bends: readonly RoundedBend[];
  readonly lengthMm: number;
}

export interface Rounding {
  readonly ends: TubeEnds;
  readonly limits: ClosureLimits;
  readonly least: LeastStraights;
  /** Of the new centreline; null: as short as can be. */
  readonly window: WantedWindow | null;
  readonly unit: LengthUnit;
}

/** Slack in units of the grid, so that what lies on it to rounding is not pushed to the next step. */
const ON_GRID = 1e-7;
/** Part of the closure that a rounded tube may use: the rest is for the last digits of its being traced again. */
export const USABLE = 0.999;

/** Bends on the grid: which way each straight runs, and where the end comes to lie with straights of zero. */
interface Turned {
  readonly bends: readonly RoundedBend[];
  readonly directions: readonly Vector[];
  readonly end: Frame;
}

/**
 * The tube on this grid that closes and is nearest to its length; null when none close by does.
 *
 * Every clocking and angle is taken down and up; where the end then points within the tilt allowed, the straights are changed by as little as
 * closes exactly (and, with three bends or more, keeps the length), and each is taken down and up in turn. So of two bends
 * 16 times 8 tubes are looked at, of four up to 256 times 32, each by its exact path.
 */
export function roundShape(rounding: Rounding, shape: TubeShape, step: SawStep): RoundedShape | null {
  const { start } = rounding.ends;
  const found: { best: RoundedShape | null; badness: number } = { best: null, badness: Number.POSITIVE_INFINITY };
  const visit = (frame: Frame, bends: readonly RoundedBend[], directions: readonly Vector[]): void => {
    const bend = shape.bends[bends.length];
    if (bend === undefined) {
      consider(rounding, shape, { bends, directions, end: frame }, step, found);
      return;
    }
    for (const clockingDeg of onGrid(degreesOf(bend.clockingRad), step.anglePer)) {
      const clocked = clockBy(frame, clockingDeg);
      for (const angleDeg of onGrid(degreesOf(bend.angleRad), step.anglePer)) {
        if (angleDeg <= 0 || angleDeg > 180) continue;
        const after = goRound(clocked, bend.clrMm, angleDeg);
        const rounded = { clrMm: bend.clrMm, angleDeg, clockingDeg: wrapDeg(clockingDeg) };
        visit(after, [...bends, rounded], [...directions, after.tangent]);
      }
    }
  };
  visit(start, [], [start.tangent]);
  return found.best;
}

/** The grid values on both sides; one when it lies on the grid. */
function onGrid(value: number, per: number): readonly number[] {
  const low = Math.floor(value * per + ON_GRID);
  const high = Math.ceil(value * per - ON_GRID);
  const at = (count: number) => Number((count / per).toFixed(6)) + 0;
  return low >= high ? [at(low)] : [at(low), at(high)];
}

/** Takes in the best straights for bends that are on the grid. */
function consider(
  rounding: Rounding,
  shape: TubeShape,
  turned: Turned,
  { lengthPer }: SawStep,
  found: { best: RoundedShape | null; badness: number },
): void {
  const { ends, limits, unit } = rounding;
  const facing = dot(turned.end.tangent, ends.wanted.tangent);
  // The cosine alone settles most.
  if (
    facing < Math.cos(radiansOf(limits.tiltDeg)) ||
    closureOf(turned.end, ends.wanted).tiltDeg > limits.tiltDeg * USABLE
  )
    return;
  const perMm = unit === 'in' ? lengthPer / MM_PER_INCH : lengthPer;
  const arcsMm = turned.bends.reduce((sumMm, { clrMm, angleDeg }) => sumMm + clrMm * radiansOf(angleDeg), 0);
  const exactMm = closedStraights(rounding, shape, turned, arcsMm);
  if (exactMm.some((mm, i) => mm < leastAt(rounding.least, i, shape.bends.length) - 1 / perMm)) return;
  const choices = exactMm.map((mm, i) => {
    const leastMm = leastAt(rounding.least, i, shape.bends.length);
    return onGrid(Math.max(mm, leastMm) * perMm, 1)
      .map((count) => count / perMm)
      .filter((candidateMm) => candidateMm >= leastMm - 1e-6);
  });
  if (choices.some(({ length }) => length === 0)) return;
  const miss = (straightsMm: readonly number[], x: number, y: number, z: number): void => {
    const lengthMm = straightsMm.reduce((sumMm, mm) => sumMm + mm, arcsMm);
    const badness = badnessOf(rounding, x, y, z, lengthMm);
    if (badness >= found.badness) return;
    found.badness = badness;
    found.best = { straights: straightsMm.map((mm) => lengthIn(mm, unit)), bends: turned.bends, lengthMm };
  };
  eachCorner(choices, turned, miss);
}

/** Every choice of straights, with the end that it gives; the list handed over is the same one each time. */
function eachCorner(
  choices: readonly (readonly number[])[],
  { directions, end: { point } }: Turned,
  visit: (straightsMm: readonly number[], x: number, y: number, z: number) => void,
): void {
  const chosen = choices.map(() => 0);
  const from = (index: number, x: number, y: number, z: number): void => {
    const list = choices[index];
    const direction = directions[index];
    if (list === undefined || direction === undefined) {
      visit(chosen, x, y, z);
      return;
    }
    for (const mm of list) {
      chosen[index] = mm;
      from(index + 1, x + direction.x * mm, y + direction.y * mm, z + direction.z * mm);
    }
  };
  from(0, point.x, point.y, point.z);
}

/** How far off the length wanted, and what is left of the gap, mm; infinite where it is not closed or not in the window. */
function badnessOf({ ends, limits, window }: Rounding, x: number, y: number, z: number, lengthMm: number): number {
  if (window !== null && (lengthMm < window.lowMm - 1e-9 || lengthMm > window.highMm + 1e-9)) {
    return Number.POSITIVE_INFINITY;
  }
  const { point, tangent } = ends.wanted;
  const [gapX, gapY, gapZ] = [point.x - x, point.y - y, point.z - z];
  const along = gapX * tangent.x + gapY * tangent.y + gapZ * tangent.z;
  const asideSquare = Math.max(0, gapX * gapX + gapY * gapY + gapZ * gapZ - along * along);
  const beyond = Math.max(0, along - limits.shallowerMm) + Math.max(0, -along - limits.deeperMm);
  const missMm = Math.sqrt(beyond * beyond + asideSquare);
  if (missMm > limits.gapMm * USABLE) return Number.POSITIVE_INFINITY;
  return missMm + (window === null ? lengthMm : Math.abs(lengthMm - window.aimMm));
}

const matrix = new Float64Array(MOST_UNKNOWNS * MOST_UNKNOWNS);
const right = new Float64Array(MOST_UNKNOWNS);

/**
 * The straights that close exactly with these bends (and from three bends on have the length wanted), as near as can be to those of the shape: the
 * least squares of their changes.
 */
function closedStraights(
  { ends, window }: Rounding,
  { straightsMm, bends }: TubeShape,
  { directions, end }: Turned,
  arcsMm: number,
): readonly number[] {
  let { point } = end;
  for (const [i, mm] of straightsMm.entries()) point = addScaled(point, directions[i] as Vector, mm);
  const gap = subtract(ends.wanted.point, point);
  const size = window !== null && bends.length > 2 ? 4 : 3;
  const columns = directions.map(({ x, y, z }) => [x, y, z, 1]);
  let trace = 0;
  for (let a = 0; a < size; a += 1) {
    for (let b = 0; b <= a; b += 1) {
      let sum = 0;
      for (const column of columns) sum += (column[a] as number) * (column[b] as number);
      matrix[a * MOST_UNKNOWNS + b] = sum;
    }
    trace += matrix[a * MOST_UNKNOWNS + a] as number;
  }
  for (let a = 0; a < size; a += 1)
    matrix[a * MOST_UNKNOWNS + a] = (matrix[a * MOST_UNKNOWNS + a] as number) + 1e-12 * trace;
  right[0] = gap.x;
  right[1] = gap.y;
  right[2] = gap.z;
  right[3] = window === null ? 0 : window.aimMm - straightsMm.reduce((sumMm, mm) => sumMm + mm, arcsMm);
  solvePositive(matrix, right, size);
  return straightsMm.map((mm, i) => {
    let by = 0;
    for (let a = 0; a < size; a += 1) by += ((columns[i] as readonly number[])[a] as number) * (right[a] as number);
    return mm + by;
  });
}
