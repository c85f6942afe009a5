/** Shifts of the tube's end in the four figures that straights can change. Plain arithmetic: it runs hundreds of thousands of times in one search. */

import type { Frame } from '../../path/frame.ts';
import { binormalOf } from '../../path/frame.ts';
import { dot, type Vector } from '../../path/vector.ts';

/** Millimetres: two ways aside (square to the inlet's axis), along the axis (positive: deeper), and the gain in length. */
export type Shift = readonly [number, number, number, number];

/** The inlet's axes: two square to its direction, then the direction. */
export interface InletAxes {
  readonly one: Vector;
  readonly two: Vector;
  readonly along: Vector;
}

export function inletAxes(wanted: Frame): InletAxes {
  return { one: wanted.normal, two: binormalOf(wanted), along: wanted.tangent };
}

/** A displacement of the end and a gain in length as a shift. */
export function shiftOf({ one, two, along }: InletAxes, by: Vector, lengthMm: number): Shift {
  return [dot(one, by), dot(two, by), dot(along, by), lengthMm];
}

export function plus(a: Shift, b: Shift): Shift {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3]];
}

export function minus(a: Shift, b: Shift): Shift {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2], a[3] - b[3]];
}

export function opposite(a: Shift): Shift {
  return [-a[0], -a[1], -a[2], -a[3]];
}

/** Figure by figure. */
export function scaledBy(a: Shift, by: Shift): Shift {
  return [a[0] * by[0], a[1] * by[1], a[2] * by[2], a[3] * by[3]];
}

export function product(a: Shift, b: Shift): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2] + a[3] * b[3];
}

export function lengthSquared(a: Shift): number {
  return a[0] * a[0] + a[1] * a[1] + a[2] * a[2] + a[3] * a[3];
}

export function unitOf(a: Shift): Shift {
  const by = 1 / Math.sqrt(lengthSquared(a));
  return [a[0] * by, a[1] * by, a[2] * by, a[3] * by];
}

/** `a` less its part along the unit `axis`. */
export function without(a: Shift, axis: Shift): Shift {
  const part = product(a, axis);
  return [a[0] - part * axis[0], a[1] - part * axis[1], a[2] - part * axis[2], a[3] - part * axis[3]];
}
