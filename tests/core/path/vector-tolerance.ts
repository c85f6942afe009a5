/** Comparison of places and directions, always with a tolerance. */

import { expect } from 'vitest';
import { distance, type Vector } from '../../../core/path/vector.ts';

/** Fails unless the two places are within the tolerance of each other, in mm (or without unit for directions). */
export function expectVector(actual: Vector, expected: Vector, tolerance: number): void {
  if (!(tolerance >= 0)) throw new Error(`A tolerance of ${tolerance} compares nothing`);
  // Written so that a NaN anywhere fails.
  if (distance(actual, expected) <= tolerance) return;
  expect.fail(`${JSON.stringify(actual)} is not within ${tolerance} of ${JSON.stringify(expected)}`);
}
