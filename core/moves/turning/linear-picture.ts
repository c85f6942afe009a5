/** Tells at a glance whether a few changes together can put the end right, by how the end starts to move. A kernel: it looks at a hundred thousand sets in one search. */

import { distance, dot, subtract } from '../../path/vector.ts';
import { radiansOf } from '../../units/angle.ts';
import type { Variable } from '../problem/variable.ts';
import { MOST_UNKNOWNS, solvePositive } from './cholesky.ts';
import { isTurn, moveEnd } from './end-motion.ts';
import type { Aim } from './miss.ts';

const ROWS = 6;
/** Sizes of change that come easily; far larger ones are held down. */
const EASY_TURN_RAD = 0.35;
const EASY_SLIDE_MM = 80;

const matrix = new Float64Array(MOST_UNKNOWNS * MOST_UNKNOWNS);
const solution = new Float64Array(MOST_UNKNOWNS);
const off = new Float64Array(ROWS);

/**
 * The linear picture of how all variables of a primary move its end: six figures (two aside, one along, two of tilt, one of
 * length) in units of what is allowed of each, and their products for every pair, worked out once.
 */
export class LinearPicture {
  private readonly count: number;
  /** Column of each variable, per easy change. */
  private readonly columns: Float64Array;
  private readonly products: Float64Array;
  private readonly turns: readonly boolean[];
  /** How far off the end is as the tube lies, and what each variable adds as soon as it is used at all. */
  private readonly offNow = new Float64Array(ROWS);
  private readonly jumps: Float64Array;
  /** Error of the linear picture for a turn of one radian in all, in the same units. */
  private readonly bendError: number;

  constructor(variables: readonly Variable[], aim: Aim) {
    this.count = variables.length;
    this.columns = new Float64Array(ROWS * this.count);
    this.jumps = new Float64Array(ROWS * this.count);
    this.products = new Float64Array(this.count * this.count);
    this.turns = variables.map(({ screw }) => isTurn(screw));
    const { limits, joints, end } = aim.ends;
    const armMm = Math.max(...joints.map(({ point }) => distance(point, end.point)));
    const slackMm = Math.max(0.05, limits.gapMm);
    const slackRad = radiansOf(Math.max(0.05, limits.tiltDeg));
    this.bendError = 0.5 * (armMm / slackMm / 2 + 1 / slackRad);
    const scales = scalesOf(aim, slackMm, slackRad);
    this.fillOff(aim, scales);
    for (const [i, variable] of variables.entries()) this.fillColumn(i, variable, aim, scales);
    for (let i = 0; i < this.count; i += 1) {
      for (let j = 0; j <= i; j += 1) {
        const product = this.productOf(i, j);
        this.products[i * this.count + j] = product;
        this.products[j * this.count + i] = product;
      }
    }
  }

  /**
   * How unlikely it is that the variables with these indices have a solution near by: what the linear picture leaves off, as a
   * share of what the picture itself may be wrong by at turns as large as it asks for. Above 1: hardly.
   */
  doubt(chosen: readonly number[]): number {
    this.setOff(chosen);
    const size = chosen.length;
    for (let a = 0; a < size; a += 1) {
      const i = chosen[a] as number;
      for (let b = 0; b <= a; b += 1) {
        const entry = this.products[i * this.count + (chosen[b] as number)] as number;
        // A share of one easy change: of answers that are equally good the smallest is taken.
        matrix[a * MOST_UNKNOWNS + b] = a === b ? entry + 1 : entry;
      }
      let sum = 0;
      for (let row = 0; row < ROWS; row += 1) sum -= (this.columns[ROWS * i + row] as number) * (off[row] as number);
      solution[a] = sum;
    }
    solvePositive(matrix, solution, size);
    return this.leftOver(chosen);
  }

  /** What the linear picture asked of the variable at `at` in the last `doubt`, mm or radians beyond its start. */
  step(at: number, variable: number): number {
    return (solution[at] as number) * (this.turns[variable] ? EASY_TURN_RAD : EASY_SLIDE_MM);
  }

  private setOff(chosen: readonly number[]): void {
    for (let row = 0; row < ROWS; row += 1) {
      let sum = this.offNow[row] as number;
      for (const i of chosen) sum += this.jumps[ROWS * i + row] as number;
      off[row] = sum;
    }
  }

  private leftOver(chosen: readonly number[]): number {
    let left = 0;
    for (let row = 0; row < ROWS; row += 1) {
      let sum = off[row] as number;
      for (let a = 0; a < chosen.length; a += 1) {
        sum += (this.columns[ROWS * (chosen[a] as number) + row] as number) * (solution[a] as number);
      }
      left += sum * sum;
    }
    let turnRad = 0;
    for (let a = 0; a < chosen.length; a += 1) {
      if (this.turns[chosen[a] as number]) turnRad += EASY_TURN_RAD * Math.abs(solution[a] as number);
    }
    return Math.sqrt(left) / (3 + this.bendError * turnRad * turnRad);
  }

  private fillOff({ ends, axes, window }: Aim, scales: Float64Array): void {
    const gap = subtract(ends.end.point, ends.wanted.point);
    const { tangent } = ends.end;
    const { shallowerMm, deeperMm } = ends.limits;
    const alongMm = dot(axes.along, gap) - (deeperMm - shallowerMm) / 2;
    const lengthMm = window.presentMm - (window.lowMm + window.highMm) / 2;
    const figures = [
      dot(axes.one, gap),
      dot(axes.two, gap),
      alongMm,
      dot(axes.one, tangent),
      dot(axes.two, tangent),
      lengthMm,
    ];
    for (let row = 0; row < ROWS; row += 1) this.offNow[row] = (figures[row] as number) * (scales[row] as number);
  }

  private fillColumn(
    index: number,
    { screw, start, present, isFixed }: Variable,
    { ends, axes }: Aim,
    scales: Float64Array,
  ): void {
    const { gradients } = moveEnd([screw], [0], ends.end);
    const easy = isTurn(screw) ? EASY_TURN_RAD : EASY_SLIDE_MM;
    const point = { x: gradients[0] as number, y: gradients[1] as number, z: gradients[2] as number };
    const tangent = { x: gradients[3] as number, y: gradients[4] as number, z: gradients[5] as number };
    const per = [
      dot(axes.one, point),
      dot(axes.two, point),
      dot(axes.along, point),
      dot(axes.one, tangent),
      dot(axes.two, tangent),
      screw.lengthPer,
    ];
    const { shift } = screw;
    const jump = [dot(axes.one, shift), dot(axes.two, shift), dot(axes.along, shift), 0, 0, screw.lengthShiftMm];
    for (let row = 0; row < ROWS; row += 1) {
      const by = scales[row] as number;
      // What is taken out only jumps.
      this.columns[ROWS * index + row] = isFixed ? 0 : (per[row] as number) * easy * by;
      this.jumps[ROWS * index + row] = ((jump[row] as number) + (per[row] as number) * (start - present)) * by;
    }
  }

  private productOf(i: number, j: number): number {
    let sum = 0;
    for (let row = 0; row < ROWS; row += 1) {
      sum += (this.columns[ROWS * i + row] as number) * (this.columns[ROWS * j + row] as number);
    }
    return sum;
  }
}

/** One over what is allowed of each figure. */
function scalesOf({ ends: { limits }, window }: Aim, slackMm: number, slackRad: number): Float64Array {
  const alongMm = slackMm + (limits.deeperMm + limits.shallowerMm) / 2;
  const lengthMm = Math.max(0.05, (window.highMm - window.lowMm) / 2);
  return Float64Array.of(1 / slackMm, 1 / slackMm, 1 / alongMm, 1 / slackRad, 1 / slackRad, 1 / lengthMm);
}
