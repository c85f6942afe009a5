/** Two tubes that go into one collector: where they come together as they are meant to, and what gap they leave elsewhere. */

import type { ArcSpan, LineSpan, Span, TubePath } from '../trace-primary.ts';
import { addScaled, cross, distance, dot, subtract, type Vector } from '../vector.ts';
import { bodyClearance, type Clearance, type TubeBody, tubeBody } from './clearance.ts';
import { placeOn } from './settle-nearest.ts';

/**
 * Tubes may be nearer than wanted over their last four diameters before a collector; one that still has company before
 * that runs beside its neighbour and does not merely meet it (common practice: merges are fitted within a few diameters).
 */
export const APPROACH_DIAMETERS = 4;

/** The walk back along an approach takes steps of at least this many millimetres, so its length comes out too long by that at most. */
const SMALLEST_STEP_MM = 0.01;
/** Steps of that walk between two pauses: about a millisecond. */
const STEPS_A_PAUSE = 2048;

export interface CollectorGaps {
  /** At the collector; null when the tubes stay apart there, or come nearer elsewhere. */
  readonly meeting: Clearance | null;
  /** Away from the collector, when that is under the wanted gap or nearer than at the collector; null otherwise. */
  readonly elsewhere: Clearance | null;
}

/**
 * The gaps between two tubes that end at one collector. From its end back, each tube is on its approach for as long as it
 * stays nearer to the other than `wantedMm` without a break, and for `APPROACH_DIAMETERS` at most. What is near on the
 * approach of both is their meeting; anything else that is near is elsewhere, however near to the collector. Tubes that pass
 * through each other, deeper than they are let into each other where they end, do not meet there, wherever it is: that is elsewhere too.
 *
 * Both null when a tube has no pieces. Errors as of `bodyClearance`; an approach is at most 0.01 mm too long.
 */
export function collectorGaps(a: TubeBody, b: TubeBody, wantedMm: number): CollectorGaps {
  const steps = collectorGapsInSteps(a, b, wantedMm);
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
}

/** The same with pauses: tubes that run side by side for long take milliseconds. */
export function* collectorGapsInSteps(a: TubeBody, b: TubeBody, wantedMm: number): Generator<void, CollectorGaps> {
  const least = bodyClearance(a, b);
  yield;
  if (least === null) return { meeting: null, elsewhere: null };
  const deepestMm = Math.min(0, gapAtEndsMm(a, b));
  if (least.gapMm < deepestMm - SMALLEST_STEP_MM) return { meeting: null, elsewhere: least };
  const apartMm = Math.max(wantedMm, least.gapMm + SMALLEST_STEP_MM);
  const beforeA = yield* beforeApproach(a, b, apartMm);
  yield;
  const ofA = beforeA === null ? null : bodyClearance(beforeA, b);
  yield;
  const beforeB = yield* beforeApproach(b, a, apartMm);
  yield;
  const ofB = beforeB === null ? null : bodyClearance(a, beforeB);
  yield;
  const elsewhere = nearer(ofA, ofB);
  if (elsewhere === null) return { meeting: least, elsewhere };
  if (elsewhere.gapMm <= least.gapMm + SMALLEST_STEP_MM / 2) return { meeting: null, elsewhere };
  return { meeting: least, elsewhere: elsewhere.gapMm < wantedMm ? elsewhere : null };
}

/** From the end of either tube to the other tube, the nearer of the two. */
function gapAtEndsMm(a: TubeBody, b: TubeBody): number {
  const nearestMm = Math.min(distanceToPath(a.path.end.point, b.path), distanceToPath(b.path.end.point, a.path));
  return nearestMm - (a.odMm + b.odMm) / 2;
}

function nearer(one: Clearance | null, other: Clearance | null): Clearance | null {
  if (one === null || other === null) return one ?? other;
  return one.gapMm <= other.gapMm ? one : other;
}

/** The part of a tube before its approach; null when that is nothing. */
function* beforeApproach(body: TubeBody, other: TubeBody, apartMm: number): Generator<void, TubeBody | null> {
  const wholeMm = body.path.spans.reduce((sum, span) => sum + span.lengthMm, 0);
  const leftMm = wholeMm - (yield* approachMm(body, other, apartMm));
  return leftMm <= 0 ? null : tubeBody(firstPart(body.path, leftMm), body.odMm);
}

/**
 * How far back from its end a tube stays nearer to another than `apartMm` from outside to outside.
 *
 * A point that moves along a tube comes nearer to anything, or leaves it, by no more than it moves. So from a point that
 * lacks x to be far enough, the next that can be is x farther on, and steps of that length cannot pass over it. Pauses where
 * they are many.
 */
export function* approachMm(body: TubeBody, other: TubeBody, apartMm: number): Generator<void, number> {
  const mostMm = APPROACH_DIAMETERS * Math.max(body.odMm, other.odMm);
  const centresMm = apartMm + (body.odMm + other.odMm) / 2;
  let back = 0;
  for (let step = 1; back < mostMm; step += 1) {
    if (step % STEPS_A_PAUSE === 0) yield;
    const point = pointBack(body.path, back);
    if (point === null) return back;
    const lackMm = centresMm - distanceToPath(point, other.path);
    if (lackMm <= 0) return back;
    back += Math.max(lackMm, SMALLEST_STEP_MM);
  }
  return mostMm;
}

/** Null before the start of the path. */
function pointBack(path: TubePath, backMm: number): Vector | null {
  let left = backMm;
  for (const span of path.spans.toReversed()) {
    if (left <= span.lengthMm) return placeOn(span, span.lengthMm - left);
    left -= span.lengthMm;
  }
  return null;
}

function firstPart(path: TubePath, lengthMm: number): TubePath {
  const spans: Span[] = [];
  let left = lengthMm;
  for (const span of path.spans) {
    if (left <= 0) break;
    spans.push(left >= span.lengthMm ? span : shortened(span, left));
    left -= span.lengthMm;
  }
  return { ...path, spans };
}

function shortened(span: Span, lengthMm: number): Span {
  const end = placeOn(span, lengthMm);
  if (span.kind === 'line') return { ...span, lengthMm, end };
  return { ...span, lengthMm, end, angleDeg: (span.angleDeg * lengthMm) / span.lengthMm };
}

/** From a point to the nearest point of a centreline; exact. Infinite for a path without spans. */
export function distanceToPath(point: Vector, path: Pick<TubePath, 'spans'>): number {
  return path.spans.reduce((least, span) => Math.min(least, distanceToSpan(point, span)), Number.POSITIVE_INFINITY);
}

function distanceToSpan(point: Vector, span: Span): number {
  return span.kind === 'line' ? distanceToLine(point, span) : distanceToArc(point, span);
}

function distanceToLine(point: Vector, { start, tangent, lengthMm }: LineSpan): number {
  const along = Math.min(lengthMm, Math.max(0, dot(subtract(point, start), tangent)));
  return distance(point, addScaled(start, tangent, along));
}

/** The nearest point of a full circle lies in the plane through the axis and the point; where the arc lacks it, an end is nearest. */
function distanceToArc(point: Vector, span: ArcSpan): number {
  const { centre, normal, tangent, clrMm, lengthMm, start, end } = span;
  const from = subtract(point, centre);
  const outward = -dot(from, normal);
  const onward = dot(from, tangent);
  const turn = Math.atan2(onward, outward);
  const turnRad = turn < 0 ? turn + 2 * Math.PI : turn;
  if (turnRad * clrMm > lengthMm) return Math.min(distance(point, start), distance(point, end));
  const aside = dot(from, cross(normal, tangent));
  return Math.hypot(Math.hypot(outward, onward) - clrMm, aside);
}
