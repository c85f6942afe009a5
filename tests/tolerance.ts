/** Comparison of numbers where the tolerance is always said, in the unit of the name. */

import { expect } from 'vitest';

function within(actual: number, expected: number, tolerance: number, unit: string): void {
  if (!(tolerance >= 0)) throw new Error(`A tolerance of ${tolerance} compares nothing`);
  // Written so that a NaN on either side fails.
  if (Math.abs(actual - expected) <= tolerance) return;
  expect.fail(`${actual} ${unit} is not within ${tolerance} ${unit} of ${expected} ${unit}`);
}

/** Fails unless the two lengths differ by no more than the tolerance, in mm. */
export function expectWithin(actualMm: number, expectedMm: number, toleranceMm: number): void {
  within(actualMm, expectedMm, toleranceMm, 'mm');
}

/** Fails unless the two angles differ by no more than the tolerance, in degrees; 359 and 1 are 358 apart. */
export function expectWithinDeg(actualDeg: number, expectedDeg: number, toleranceDeg: number): void {
  within(actualDeg, expectedDeg, toleranceDeg, 'degrees');
}

/** Fails unless the two numbers differ by no more than so large a part of the expected one; for quantities of any unit. */
export function expectWithinRelative(actual: number, expected: number, relative: number): void {
  within(actual, expected, relative * Math.abs(expected), '');
}
