/** The cuts by which two, three or four tubes come together in a collector. */

import { failure, type Result, success } from '../../result.ts';
import { degreesOf, radiansOf } from '../../units/angle.ts';
import type { StripProblem } from '../sheet-problem.ts';
import { outOfRange } from './cope.ts';

export interface Merge {
  readonly tubes: 2 | 3 | 4;
  readonly odMm: number;
  /** Of each tube's axis to the collector's, degrees. All axes meet in one point. */
  readonly leanDeg: number;
  /** Of the tube that the merge runs into, mm: the merge is cut off square where it is as wide. */
  readonly outletOdMm: number;
}

export const LEAN_LIMITS: readonly [lowDeg: number, highDeg: number] = [2, 45];

export function checkMerge(merge: Merge): Result<Merge, StripProblem> {
  const figure = outOfRange('tubeOd', merge.odMm, [1, 1000]) ?? outOfRange('lean', merge.leanDeg, LEAN_LIMITS);
  if (figure !== null) return failure(figure);
  const { odMm, outletOdMm } = merge;
  const bundleMm = circleRoundTubesMm(merge.tubes, odMm);
  if (!(outletOdMm >= odMm && outletOdMm < bundleMm)) {
    return failure({ kind: 'mergeOutlet', outletMm: outletOdMm, lowMm: odMm, highMm: bundleMm });
  }
  return success(merge);
}

/**
 * Angle between a tube's axis and the plane in which it meets its neighbour, degrees: `asin(sin a sin(180 / N))`.
 * The planes stand on the collector's axis, half way between two tubes.
 */
export function mergeCutDeg(tubes: number, leanDeg: number): number {
  return degreesOf(Math.asin(Math.sin(radiansOf(leanDeg)) * Math.sin(Math.PI / tubes)));
}

/** Diameter of the circle round N equal tubes that touch each other side by side, mm: `OD (1 + 1 / sin(180 / N))`. */
export function circleRoundTubesMm(tubes: number, odMm: number): number {
  return odMm * (1 + 1 / Math.sin(Math.PI / tubes));
}

/** Area of the hole between N touching tubes, mm2: the polygon of their centres without their sectors. Zero for two. */
export function holeBetweenTubesMm2(tubes: 2 | 3 | 4, odMm: number): number {
  if (tubes === 2) return 0;
  const polygon = (tubes * odMm * odMm) / (4 * Math.tan(Math.PI / tubes));
  const sectors = ((tubes - 2) * Math.PI * odMm * odMm) / 8;
  return polygon - sectors;
}

/**
 * Where a tube ends, mm along its own axis from the point in which all axes meet, against the flow; `turnRad` goes round the tube from
 * its outer side. Whichever comes first on the way down: the plane half way to a neighbour, `r (|sin t| cot(180/N) - cos t cos a) / sin a`,
 * or the square end of the merge, where the outer walls are as far apart as the outlet's.
 * The merge must have passed `checkMerge`. Every point lies on its plane to 1e-9 mm (merge.test.ts).
 */
export function mergeMm(merge: Merge, turnRad: number): number {
  return Math.max(neighbourMm(merge, turnRad), outletMm(merge, turnRad));
}

function neighbourMm({ tubes, odMm, leanDeg }: Merge, turnRad: number): number {
  const lean = radiansOf(leanDeg);
  const spread = Math.abs(Math.sin(turnRad)) / Math.tan(Math.PI / tubes);
  return ((odMm / 2) * (spread - Math.cos(turnRad) * Math.cos(lean))) / Math.sin(lean);
}

/** Height of the square end over the point in which the axes meet, mm along the collector's axis; positive is down the flow. */
export function outletHeightMm({ odMm, leanDeg, outletOdMm }: Merge): number {
  const lean = radiansOf(leanDeg);
  return (odMm / 2 / Math.cos(lean) - outletOdMm / 2) / Math.tan(lean);
}

function outletMm(merge: Merge, turnRad: number): number {
  const lean = radiansOf(merge.leanDeg);
  return ((merge.odMm / 2) * Math.cos(turnRad) * Math.sin(lean) - outletHeightMm(merge)) / Math.cos(lean);
}
