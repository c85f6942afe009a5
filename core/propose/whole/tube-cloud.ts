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
  /** A ball about every few points that follow on each other: centre and radius, four figures a ball. */
  readonly balls: Float64Array;
}

/** Points in one ball. */
const IN_BALL = 6;

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
  return { figures: Float64Array.from(figures), before, withinMm, balls: ballsAbout(figures) };
}

/** Each about the point in the middle of its row, as far as to the farthest of them. */
function ballsAbout(figures: readonly number[]): Float64Array {
  const count = figures.length / 3;
  const balls: number[] = [];
  for (let from = 0; from < count; from += IN_BALL) {
    const to = Math.min(count, from + IN_BALL);
    const middle = Math.floor((from + to - 1) / 2);
    const [x, y, z] = figures.slice(3 * middle, 3 * middle + 3) as [number, number, number];
    let radius = 0;
    for (let i = from; i < to; i += 1) {
      const [px, py, pz] = figures.slice(3 * i, 3 * i + 3) as [number, number, number];
      radius = Math.max(radius, Math.hypot(px - x, py - y, pz - z));
    }
    balls.push(x, y, z, radius);
  }
  return Float64Array.from(balls);
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
  if (!meet) {
    const slackMm = a.coarse.withinMm + b.coarse.withinMm;
    return outsideMm <= nearMm + slackMm && leastApart(a.fine(), b.fine(), false, nearMm) < nearMm + FINE_ERROR_MM;
  }
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
  const [countA, countB] = [a.figures.length / 3, b.figures.length / 3];
  const least: LeastSquares = {
    toB: new Float64Array(countA).fill(Number.POSITIVE_INFINITY),
    toA: new Float64Array(countB).fill(Number.POSITIVE_INFINITY),
  };
  const { toB, toA } = least;
  takeIn(a, [countA - 1, countA], b, [0, countB], least);
  takeIn(a, [0, countA], b, [countB - 1, countB], least);
  const atEndsMm = Math.sqrt(Math.min(toB[countA - 1] as number, toA[countB - 1] as number));
  // What is farther apart than this counts for nothing below, however far it is.
  takeInNear(a, b, Math.max(nearMm + FINE_ERROR_MM, touchMm), least);
  if (Math.sqrt(leastOf(toB)) < Math.min(touchMm, atEndsMm) - FINE_ERROR_MM) return true;
  return isNearBefore(toB, a.before, nearMm) || isNearBefore(toA, b.before, nearMm);
}

/** From each point of one tube the square of the distance to the nearest of the other that was looked at. */
interface LeastSquares {
  readonly toB: Float64Array;
  readonly toA: Float64Array;
}

/** From the first of these places up to the second, that left out. */
type Places = readonly [from: number, to: number];

function takeIn(a: Points, [fromA, toA]: Places, b: Points, [fromB, toB]: Places, least: LeastSquares): void {
  for (let i = fromA; i < toA; i += 1) {
    let nearest = least.toB[i] as number;
    for (let j = fromB; j < toB; j += 1) {
      const square = squareApart(a.figures, i, b.figures, j);
      if (square < nearest) nearest = square;
      if (square < (least.toA[j] as number)) least.toA[j] = square;
    }
    least.toB[i] = nearest;
  }
}

/** Slack on balls, mm, for rounding in the last digits. */
const BALL_SLACK_MM = 1e-6;

/** Takes in every pair of points that may be less than `withinMm` apart: those in balls that are not farther apart. */
function takeInNear(a: Points, b: Points, withinMm: number, least: LeastSquares): void {
  const [ballsA, ballsB] = [a.balls, b.balls];
  const [countA, countB] = [a.figures.length / 3, b.figures.length / 3];
  for (let one = 0; 4 * one < ballsA.length; one += 1) {
    const [x, y, z] = [ballsA[4 * one] as number, ballsA[4 * one + 1] as number, ballsA[4 * one + 2] as number];
    const ownMm = withinMm + BALL_SLACK_MM + (ballsA[4 * one + 3] as number);
    for (let other = 0; 4 * other < ballsB.length; other += 1) {
      const dx = x - (ballsB[4 * other] as number);
      const dy = y - (ballsB[4 * other + 1] as number);
      const dz = z - (ballsB[4 * other + 2] as number);
      const reachMm = ownMm + (ballsB[4 * other + 3] as number);
      if (dx * dx + dy * dy + dz * dz > reachMm * reachMm) continue;
      takeIn(a, placesOf(one, countA), b, placesOf(other, countB), least);
    }
  }
}

function placesOf(ball: number, count: number): Places {
  return [IN_BALL * ball, Math.min(count, IN_BALL * (ball + 1))];
}

function leastOf(squares: Float64Array): number {
  let least = Number.POSITIVE_INFINITY;
  for (const square of squares) if (square < least) least = square;
  return least;
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
