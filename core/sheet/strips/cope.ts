/** The cope of a branch tube that sits on the side of a run: where to cut the branch so that it lies on the run all round. */

import { failure, type Result, success } from '../../result.ts';
import { radiansOf } from '../../units/angle.ts';
import type { StripProblem } from '../sheet-problem.ts';

export interface CopeJoint {
  readonly runOdMm: number;
  readonly branchOdMm: number;
  readonly branchWallMm: number;
  /** Between the axes of run and branch, degrees; the run's direction is the one that the branch leans towards when below 90. */
  readonly angleDeg: number;
  /** How far the branch's axis passes the run's, mm; positive towards the first quarter line from the strip's left edge. */
  readonly offsetMm: number;
  /** Whose edge touches the run: the bore's, as when the branch sits on the outside, or the outside's. */
  readonly cutTo: 'inside' | 'outside';
}

export const COPE_ANGLES: readonly [lowDeg: number, highDeg: number] = [10, 170];
const OD_LIMITS: readonly [lowMm: number, highMm: number] = [1, 1000];
/** A branch may be as wide as its run; rounding alone is not past it. */
const SLACK_MM = 1e-9;

/** The radius of the branch at which it is cut, mm. */
export function copeRadiusMm({ branchOdMm, branchWallMm, cutTo }: CopeJoint): number {
  return cutTo === 'outside' ? branchOdMm / 2 : branchOdMm / 2 - branchWallMm;
}

/** The joint itself when it can be cut. */
export function checkCope(joint: CopeJoint): Result<CopeJoint, StripProblem> {
  const { runOdMm, branchOdMm, branchWallMm, angleDeg, offsetMm } = joint;
  const figure = outOfRange('runOd', runOdMm, OD_LIMITS) ?? outOfRange('branchOd', branchOdMm, OD_LIMITS);
  if (figure !== null) return failure(figure);
  const angle = outOfRange('angle', angleDeg, COPE_ANGLES);
  if (angle !== null) return failure(angle);
  if (!(branchWallMm >= 0 && branchWallMm < branchOdMm / 2)) {
    return failure({ kind: 'stripWall', odMm: branchOdMm, wallMm: branchWallMm });
  }
  const branchMm = 2 * copeRadiusMm(joint);
  if (!(branchMm / 2 + Math.abs(offsetMm) <= runOdMm / 2 + SLACK_MM)) {
    return failure({ kind: 'copePastRun', branchMm, runMm: runOdMm, offsetMm });
  }
  return success(joint);
}

/** A problem when the figure is not a number from low to high. */
export function outOfRange(
  field: Extract<StripProblem, { kind: 'stripFigure' }>['field'],
  value: number,
  [low, high]: readonly [number, number],
): StripProblem | null {
  return value >= low && value <= high ? null : { kind: 'stripFigure', field, value, low, high };
}

/**
 * How far along the branch its cut lies, mm from the point of the branch's axis that is nearest the run's axis, outwards.
 *
 * `w(t) = (sqrt(R^2 - (r sin t + e)^2) - r cos t cos b) / sin b`, with R the run's radius, r the branch's radius at which it is cut, b
 * the angle between the axes and e the offset. `turnRad` goes round the branch from the side that faces
 * against the run's direction (the obtuse one below 90 degrees), right-hand rule towards the run.
 * Source: the meeting of two cylinders, solved for the length along the branch; every point lies on both to 1e-9 mm (cope.test.ts).
 * The joint must have passed `checkCope`.
 */
export function copeMm(joint: CopeJoint, turnRad: number): number {
  const { runOdMm, angleDeg, offsetMm } = joint;
  const [runMm, radiusMm, angleRad] = [runOdMm / 2, copeRadiusMm(joint), radiansOf(angleDeg)];
  const asideMm = radiusMm * Math.sin(turnRad) + offsetMm;
  // As a product, so that nothing cancels where the branch is as wide as the run.
  const heightMm = Math.sqrt(Math.max(0, (runMm - asideMm) * (runMm + asideMm)));
  return (heightMm - radiusMm * Math.cos(turnRad) * Math.cos(angleRad)) / Math.sin(angleRad);
}
