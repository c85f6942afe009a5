/** Moves a guess at the nearest points of two stretches to where their distance is least thereabouts. */

import type { Span } from '../trace-primary.ts';
import { addScaled, dot, subtract, type Vector } from '../vector.ts';
import { arcPoint, type Stretch } from './stretch.ts';

/** Places along two spans, in millimetres from their starts, and the distance between them. */
export interface NearestPlaces {
  readonly alongA: number;
  readonly alongB: number;
  readonly distanceMm: number;
}

interface Motion {
  readonly point: Vector;
  /** First derivative by length: the direction of travel. */
  readonly tangent: Vector;
  /** Second derivative by length: towards the centre, 1 / radius long. */
  readonly curve: Vector;
}

function motionAt(span: Span, alongMm: number): Motion {
  if (span.kind === 'line') {
    return { point: addScaled(span.start, span.tangent, alongMm), tangent: span.tangent, curve: STRAIGHT };
  }
  const { normal, tangent, clrMm } = span;
  const sine = Math.sin(alongMm / clrMm);
  const cosine = Math.cos(alongMm / clrMm);
  const point = arcPoint(span, alongMm);
  return {
    point,
    tangent: {
      x: normal.x * sine + tangent.x * cosine,
      y: normal.y * sine + tangent.y * cosine,
      z: normal.z * sine + tangent.z * cosine,
    },
    curve: {
      x: (normal.x * cosine - tangent.x * sine) / clrMm,
      y: (normal.y * cosine - tangent.y * sine) / clrMm,
      z: (normal.z * cosine - tangent.z * sine) / clrMm,
    },
  };
}

const STRAIGHT: Vector = { x: 0, y: 0, z: 0 };
const MOST_STEPS = 40;
const SMALLEST_STEP_MM = 1e-12;

/**
 * Newton's method on half the squared distance over both places, kept within the stretches that the two were
 * halved out of.
 *
 * Where the distance does not curve upwards both ways the curvature terms are dropped (Gauss-Newton), which always points
 * downhill; a step that does not go down is halved. The result is never farther apart than the guess, and usually exact to
 * rounding. It is only ever used as an upper bound, so that nothing hangs on its having found the least distance of all.
 */
export function settleNearest(a: Stretch, b: Stretch, guess: NearestPlaces): NearestPlaces {
  let best = guess;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const next = downhill(a, b, best, stepFrom(a, b, best));
    if (next === null) return best;
    const moved = Math.abs(next.alongA - best.alongA) + Math.abs(next.alongB - best.alongB);
    best = next;
    if (moved < SMALLEST_STEP_MM) return best;
  }
  return best;
}

/** The step that Newton's method would take, [along a, along b] in millimetres. */
function stepFrom(a: Stretch, b: Stretch, at: NearestPlaces): readonly [number, number] {
  const onA = motionAt(a.span, at.alongA);
  const onB = motionAt(b.span, at.alongB);
  const apart = subtract(onA.point, onB.point);
  const slopeA = dot(apart, onA.tangent);
  const slopeB = -dot(apart, onB.tangent);
  const isFreeA = isFree(at.alongA, a, slopeA);
  const isFreeB = isFree(at.alongB, b, slopeB);
  const mixed = -dot(onA.tangent, onB.tangent);
  let bendA = 1 + dot(apart, onA.curve);
  let bendB = 1 - dot(apart, onB.curve);
  if (!isFreeA || !isFreeB) {
    return [isFreeA ? -slopeA / (bendA > 1e-6 ? bendA : 1) : 0, isFreeB ? -slopeB / (bendB > 1e-6 ? bendB : 1) : 0];
  }
  if (!(bendA > 0 && bendB > 0 && bendA * bendB - mixed * mixed > 1e-9)) {
    // A little more than 1 keeps parallel tangents from dividing by zero.
    bendA = 1.001;
    bendB = 1.001;
  }
  const whole = bendA * bendB - mixed * mixed;
  return [(mixed * slopeB - bendB * slopeA) / whole, (mixed * slopeA - bendA * slopeB) / whole];
}

/** A place at the end of its stretch is held there while the slope pushes it out. */
function isFree(alongMm: number, stretch: Stretch, slope: number): boolean {
  if (alongMm <= stretch.rootFromMm) return slope < 0;
  if (alongMm >= stretch.rootToMm) return slope > 0;
  return true;
}

/** The guess moved by the step, or by half of it, and so on, as soon as that comes nearer; null when nothing does. */
function downhill(a: Stretch, b: Stretch, from: NearestPlaces, step: readonly [number, number]): NearestPlaces | null {
  for (let share = 1; share > 1e-4; share /= 2) {
    const alongA = Math.min(a.rootToMm, Math.max(a.rootFromMm, from.alongA + step[0] * share));
    const alongB = Math.min(b.rootToMm, Math.max(b.rootFromMm, from.alongB + step[1] * share));
    const distanceMm = apartAt(a.span, alongA, b.span, alongB);
    if (distanceMm < from.distanceMm) return { alongA, alongB, distanceMm };
  }
  return null;
}

/** Distance between the places `alongA` and `alongB` of two spans, in millimetres. */
export function apartAt(spanA: Span, alongA: number, spanB: Span, alongB: number): number {
  const a = placeOn(spanA, alongA);
  const b = placeOn(spanB, alongB);
  const dx = a.x - b.x;
  const dy = a.y - b.y;
  const dz = a.z - b.z;
  return Math.sqrt(dx * dx + dy * dy + dz * dz);
}

export function placeOn(span: Span, alongMm: number): Vector {
  return span.kind === 'line' ? addScaled(span.start, span.tangent, alongMm) : arcPoint(span, alongMm);
}
