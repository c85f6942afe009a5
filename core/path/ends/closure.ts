/** How far a primary's end misses its collector inlet. */

import { degreesOf, radiansOf } from '../../units/angle.ts';
import type { Frame } from '../frame.ts';
import { angleBetweenRad, dot, magnitude, squareTo, subtract, type Vector } from '../vector.ts';

export interface Closure {
  /** From the primary's end to the inlet, in millimetres in the header frame. */
  readonly gap: Vector;
  readonly gapMm: number;
  /** Angle between the directions of travel of the end and of the inlet, 0 to 180. */
  readonly tiltDeg: number;
  /** The gap along the inlet's direction: positive when the end falls short, negative when it sits too deep. */
  readonly alongMm: number;
  /** The gap square to the inlet's axis, zero or more. */
  readonly asideMm: number;
}

/**
 * Gap and tilt between a primary's end and its inlet. The inlet's direction is the direction of travel into the collector.
 * The roll of the tube about its own axis plays no part. Exact to rounding.
 */
export function closureOf(end: Frame, inlet: Frame): Closure {
  const gap = subtract(inlet.point, end.point);
  return {
    gap,
    gapMm: magnitude(gap),
    tiltDeg: degreesOf(angleBetweenRad(end.tangent, inlet.tangent)),
    alongMm: dot(gap, inlet.tangent),
    asideMm: magnitude(squareTo(inlet.tangent, gap)),
  };
}

/** How far from the end a tilt is weighed: one radian of it counts as this many millimetres of gap. */
export const TILT_ARM_MM = 100;

/**
 * Gap and tilt in one figure, in millimetres: the gap, squared up with how far apart two pointers of 100 mm along the directions
 * of end and inlet would be at their tips.
 */
export function closureMissMm({ gapMm, tiltDeg }: Closure): number {
  return Math.hypot(gapMm, 2 * TILT_ARM_MM * Math.sin(radiansOf(tiltDeg) / 2));
}

/** How much a closure may be off and still count as closed, in millimetres and degrees; slips along the inlet's axis. */
export interface ClosureLimits {
  readonly gapMm: number;
  readonly tiltDeg: number;
  readonly deeperMm: number;
  readonly shallowerMm: number;
}

/** What is left of the gap once the inlet's slip has taken what it can, in millimetres; zero or more. */
export function missPastSlipMm(closure: Closure, limits: Pick<ClosureLimits, 'deeperMm' | 'shallowerMm'>): number {
  const shortMm = Math.max(0, closure.alongMm - limits.shallowerMm);
  const deepMm = Math.max(0, -closure.alongMm - limits.deeperMm);
  return Math.hypot(shortMm + deepMm, closure.asideMm);
}

/** Whether the end counts as closed: within the tilt, and within the gap once the inlet's slip has taken what it can. */
export function isClosed(closure: Closure, limits: ClosureLimits): boolean {
  return missPastSlipMm(closure, limits) <= limits.gapMm && closure.tiltDeg <= limits.tiltDeg;
}
