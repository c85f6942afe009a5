/** Tells at a glance whether a few changes together can put the end right, by how the end starts to move. */

import { distance, dot, subtract } from '../../path/vector.ts';
import { radiansOf } from '../../units/angle.ts';
import type { EndAim } from './miss.ts';
import { isTurn, MOST_SCREWS, moveEnd } from './end-motion.ts';
import type { Variable } from '../problem/variables.ts';

const ROWS = 6;
/** Sizes of change that come easily; far larger ones are held down. */
const EASY_TURN_RAD = 0.35;
const EASY_SLIDE_MM = 80;

const factor = new Float64Array(MOST_SCREWS * MOST_SCREWS);
const solution = new Float64Array(MOST_SCREWS);
const miss = new Float64Array(ROWS);

/**
 * The linear picture of how all variables of a primary move its end: six figures (two aside, one along, two of tilt, one of
 * length) in units of what is allowed of each, and their products for every pair, worked out once.
 */
export class NearSolutions {
  private readonly count: number;
  /** Column of each variable, per easy change. */
  private readonly columns: Float64Array;
  private readonly products: Float64Array;
  private readonly turns: readonly boolean[];
  /** Miss as the tube lies, and what each variable adds as soon as it is used at all. */
  private readonly missNow = new Float64Array(ROWS);
  private readonly jumps: Float64Array;
  /** Error of the linear picture for a turn of one radian in all, in the same units. */
  private readonly bendError: number;

  constructor(variables: readonly Variable[], aim: EndAim) {
    this.count = variables.length;
    this.columns = new Float64Array(ROWS * this.count);
    this.jumps = new Float64Array(ROWS * this.count);
    this.products = new Float64Array(this.count * this.count);
    this.turns = variables.map(({ screw }) => isTurn(screw));
    const { limits, joints, end } = aim.ends;
    const reachMm = Math.max(...joints.map(({ point }) => distance(point, end.point)));
    const slackMm = Math.max(0.05, limits.gapMm);
    const slackRad = radiansOf(Math.max(0.05, limits.tiltDeg));
    this.bendError = 0.5 * (reachMm / slackMm / 2 + 1 / slackRad);
    const scales = scalesOf(aim, slackMm, slackRad);
    this.fillMiss(aim, scales);
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
   * How unlikely it is that the variables at these places have a solution near by: what the linear picture leaves of the miss, as
   * a share of what the picture itself may be wrong by at turns as large as it asks for. Above 1: hardly.
   */
  doubt(chosen: readonly number[]): number {
    this.setMiss(chosen);
    const size = chosen.length;
    for (let a = 0; a < size; a += 1) {
      const i = chosen[a] as number;
      for (let b = 0; b <= a; b += 1) {
        let sum = (this.products[i * this.count + (chosen[b] as number)] as number) + (a === b ? 1 : 0);
        for (let k = 0; k < b; k += 1) {
          sum -= (factor[a * MOST_SCREWS + k] as number) * (factor[b * MOST_SCREWS + k] as number);
        }
        factor[a * MOST_SCREWS + b] = a === b ? Math.sqrt(sum) : sum / (factor[b * MOST_SCREWS + b] as number);
      }
    }
    this.solve(chosen);
    return this.leftOver(chosen);
  }

  /** What the linear picture asked of each variable in the last `doubt`, mm or radians beyond its start. */
  step(place: number, variable: number): number {
    return (solution[place] as number) * (this.turns[variable] ? EASY_TURN_RAD : EASY_SLIDE_MM);
  }

  private setMiss(chosen: readonly number[]): void {
    for (let row = 0; row < ROWS; row += 1) {
      let sum = this.missNow[row] as number;
      for (const i of chosen) sum += this.jumps[ROWS * i + row] as number;
      miss[row] = sum;
    }
  }

  private solve(chosen: readonly number[]): void {
    const size = chosen.length;
    for (let a = 0; a < size; a += 1) {
      const at = ROWS * (chosen[a] as number);
      let sum = 0;
      for (let row = 0; row < ROWS; row += 1) sum -= (this.columns[at + row] as number) * (miss[row] as number);
      for (let k = 0; k < a; k += 1) sum -= (factor[a * MOST_SCREWS + k] as number) * (solution[k] as number);
      solution[a] = sum / (factor[a * MOST_SCREWS + a] as number);
    }
    for (let a = size - 1; a >= 0; a -= 1) {
      let sum = solution[a] as number;
      for (let k = a + 1; k < size; k += 1) {
        sum -= (factor[k * MOST_SCREWS + a] as number) * (solution[k] as number);
      }
      solution[a] = sum / (factor[a * MOST_SCREWS + a] as number);
    }
  }

  private leftOver(chosen: readonly number[]): number {
    let left = 0;
    for (let row = 0; row < ROWS; row += 1) {
      let sum = miss[row] as number;
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

  private fillMiss({ ends, axes, window }: EndAim, scales: Float64Array): void {
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
    for (let row = 0; row < ROWS; row += 1) this.missNow[row] = (figures[row] as number) * (scales[row] as number);
  }

  private fillColumn(
    index: number,
    { screw, start, present }: Variable,
    { ends, axes }: EndAim,
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
      this.columns[ROWS * index + row] = (per[row] as number) * easy * by;
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
function scalesOf({ ends: { limits }, window }: EndAim, slackMm: number, slackRad: number): Float64Array {
  const alongMm = slackMm + (limits.deeperMm + limits.shallowerMm) / 2;
  const lengthMm = Math.max(0.05, (window.highMm - window.lowMm) / 2);
  return Float64Array.of(1 / slackMm, 1 / slackMm, 1 / alongMm, 1 / slackRad, 1 / slackRad, 1 / lengthMm);
}
