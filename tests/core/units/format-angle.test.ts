/** Degrees as they are shown and set. */

import { expect, test } from 'vitest';
import { roundedTo } from '../../../core/units/angle.ts';
import { formatSignedAngle } from '../../../core/units/format-angle.ts';

test.each([
  [5, '+5°'],
  [-13.756, '−13.76°'],
  [-0.001, '+0°'],
  [0, '+0°'],
  [Number.NaN, '—'],
])('%d is shown as %s', (angleDeg, text) => {
  expect(formatSignedAngle(angleDeg)).toBe(text);
});

test('rounding keeps so many decimals and makes no minus zero', () => {
  expect([roundedTo(12.345, 1), roundedTo(-0.04, 1), roundedTo(89.996, 2), roundedTo(-179.994, 2)]).toEqual([
    12.3, 0, 90, -179.99,
  ]);
});
