/** Arithmetic with the four figures of a miss; plain, for it runs hundreds of thousands of times in one search. */

import type { Four } from './shift-windows.ts';

export function plus(a: Four, b: Four): Four {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3]];
}

export function minus(a: Four, b: Four): Four {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2], a[3] - b[3]];
}

export function product(a: Four, b: Four): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2] + a[3] * b[3];
}

export function scaledBy(a: Four, by: Four): Four {
  return [a[0] * by[0], a[1] * by[1], a[2] * by[2], a[3] * by[3]];
}

export function lengthSquared(a: Four): number {
  return a[0] * a[0] + a[1] * a[1] + a[2] * a[2] + a[3] * a[3];
}

export function unitOf(a: Four): Four {
  const by = 1 / Math.sqrt(lengthSquared(a));
  return [a[0] * by, a[1] * by, a[2] * by, a[3] * by];
}

/** `a` less its part along the unit `axis`. */
export function without(a: Four, axis: Four): Four {
  const part = product(a, axis);
  return [a[0] - part * axis[0], a[1] - part * axis[1], a[2] - part * axis[2], a[3] - part * axis[3]];
}
