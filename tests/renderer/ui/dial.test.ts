/** The clocking dial under keys and pointers. */

import { expect, test } from 'vitest';
import { clockingAfterKey, clockingAtPlace } from '../../../renderer/ui/fields/dial-steps.ts';

test.each([
  [0, 'ArrowRight', false, 1],
  [0, 'ArrowLeft', false, -1],
  [0, 'ArrowUp', true, 0.1],
  [0, 'PageDown', false, -15],
  [179, 'ArrowUp', false, 180],
  [180, 'ArrowUp', false, -179],
  [-179, 'ArrowDown', false, 180],
  [33.3, 'Home', false, 0],
  [33.3, 'End', false, 180],
  [33.33, 'ArrowUp', false, 34.33],
] as const)('%d after %s (fine: %s) is %d', (from, key, isFine, to) => {
  expect(clockingAfterKey(from, key, isFine)).toBe(to);
});

test('other keys mean nothing', () => {
  for (const key of ['a', 'Enter', 'Tab', 'Escape']) expect(clockingAfterKey(10, key, false)).toBeNull();
});

test.each([
  [0, -10, 0],
  [10, 0, 90],
  [0, 10, 180],
  [-10, 0, -90],
  [10, -10, 45],
] as const)('%d right and %d down of the middle is %d', (right, down, clockingDeg) => {
  expect(clockingAtPlace(right, down)).toBe(clockingDeg);
});
