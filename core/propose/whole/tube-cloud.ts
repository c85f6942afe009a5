/** Whether two proposed tubes leave the gap wanted, told by points along each: quick enough for thousands of pairs, and proven exactly for those that are chosen. */

import { APPROACH_DIAMETERS } from '../../path/clearance/collector-gaps.ts';
import { pathLengthMm, pointAt, type TubePath } from '../../path/trace-primary.ts';

/** Points strewn along a centreline, three figures a point, from the port on. */
interface Points {
  readonly figures: Float64Array;
  /** So many of them lie before the last four diameters, where tubes may come together at a collector. */
  readonly before: number;
  /** No place of the tube is farther along it than this from a point. */
  readonly withinMm: number;
}

export interface TubeCloud {
  readonly odMm: number;
  readonly collectorId: string | null;
  readonly coarse: Points;
  /** Made when it is first asked for. */
  readonly fine: () => Points;
}

const COARSE_MM = 24;
const FINE_MM = 5;
/**
 * What points 5 mm apart may make of a distance: at the nearest places the line between them is square to both tubes, so that points
 * at most 2.5 mm off along each are farther apart by at most 5 squared over twice the distance, a third of a millimetre for two tubes that nearly touch.
 */
const FINE_ERROR_MM = 0.4;

export function tubeCloud(path: TubePath, odMm: number, collectorId: string | null): TubeCloud {
  let fine: Points | null = null;
  const made = () => {
    fine ??= pointsOf(path, odMm, FINE_MM);
    return fine;
  };
  return { odMm, collectorId, coarse: pointsOf(path, odMm, COARSE_MM), fine: made };
}

function pointsOf(path: TubePath, odMm: number, apartMm: number): Points {
  const figures: number[] = [];
  let leftMm = pathLengthMm(path);
  let before = 0;
  let withinMm = 0;
  for (const span of path.spans) {
    const parts = Math.max(1, Math.ceil(span.lengthMm / apartMm));
    for (let part = 0; part < parts; part += 1) {
      const share = (part + 0.5) / parts;
      const { x, y, z } = pointAt(span, share);
      figures.push(x, y, z);
      if (leftMm - share * span.lengthMm > APPROACH_DIAMETERS * odMm) before += 1;
    }
    withinMm = Math.max(withinMm, span.lengthMm / parts / 2);
    leftMm -= span.lengthMm;
  }
  return { figures: Float64Array.from(figures), before, withinMm };
}

/**
 * Whether the tubes come nearer than `gapMm`. Where both go into one collector they may on their approach to it: from the end back for as long as a tube stays
 * near to the other without a break, and for four diameters at most, as in `collectorGaps`; but not deeper into each other than they are where they end. Of a gap that
 * is just kept it may say that it is not, to about half a millimetre.
 */
export function isTooNear(a: TubeCloud, b: TubeCloud, gapMm: number): boolean {
  const nearMm = gapMm + (a.odMm + b.odMm) / 2;
  const meet = a.collectorId !== null && a.collectorId === b.collectorId;
  const outsideMm = leastApart(a.coarse, b.coarse, meet, nearMm);
  if (outsideMm < nearMm) return true;
  const slackMm = a.coarse.withinMm + b.coarse.withinMm;
  if (!meet)
    return outsideMm <= nearMm + slackMm && leastApart(a.fine(), b.fine(), false, nearMm) < nearMm + FINE_ERROR_MM;
  if (leastApart(a.coarse, b.coarse, false, 0) > nearMm + slackMm) return false;
  return meetsBadly(a.fine(), b.fine(), nearMm, (a.odMm + b.odMm) / 2);
}

/** The least distance between points that count, or the first one found that is less than `enoughMm`. */
function leastApart(a: Points, b: Points, meet: boolean, enoughMm: number): number {
  const [countA, countB] = [a.figures.length / 3, b.figures.length / 3];
  const enough = enoughMm * enoughMm;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < countA; i += 1) {
    const endB = meet && i >= a.before ? b.before : countB;
    for (let j = 0; j < endB; j += 1) {
      const square = squareApart(a.figures, i, b.figures, j);
      if (square < least) {
        least = square;
        if (square < enough) return Math.sqrt(square);
      }
    }
  }
  return Math.sqrt(least);
}

function squareApart(a: Float64Array, i: number, b: Float64Array, j: number): number {
  const dx = (a[3 * i] as number) - (b[3 * j] as number);
  const dy = (a[3 * i + 1] as number) - (b[3 * j + 1] as number);
  const dz = (a[3 * i + 2] as number) - (b[3 * j + 2] as number);
  return dx * dx + dy * dy + dz * dz;
}

/** Whether two tubes of one collector are near, but for their approaches; or run into each other more than where they end. */
function meetsBadly(a: Points, b: Points, nearMm: number, touchMm: number): boolean {
  const toB = new Float64Array(a.figures.length / 3).fill(Number.POSITIVE_INFINITY);
  const toA = new Float64Array(b.figures.length / 3).fill(Number.POSITIVE_INFINITY);
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < toB.length; i += 1) {
    for (let j = 0; j < toA.length; j += 1) {
      const square = squareApart(a.figures, i, b.figures, j);
      if (square < (toB[i] as number)) toB[i] = square;
      if (square < (toA[j] as number)) toA[j] = square;
      if (square < least) least = square;
    }
  }
  const atEndsMm = Math.sqrt(Math.min(toB.at(-1) ?? 0, toA.at(-1) ?? 0));
  if (Math.sqrt(least) < Math.min(touchMm, atEndsMm) - FINE_ERROR_MM) return true;
  return isNearBefore(toB, a.before, nearMm) || isNearBefore(toA, b.before, nearMm);
}

/** Whether a tube is near before its approach: the last places without a break that are near, of those past `earliest`. */
function isNearBefore(squares: Float64Array, earliest: number, nearMm: number): boolean {
  const near = nearMm * nearMm;
  let first = squares.length;
  while (first > earliest && (squares[first - 1] as number) < near) first -= 1;
  const enough = (nearMm + FINE_ERROR_MM) ** 2;
  // Where the approach itself begins the tube is just as near as is wanted.
  for (let i = 0; i < first - 2; i += 1) if ((squares[i] as number) < enough) return true;
  return false;
}
