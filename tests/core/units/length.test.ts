/** The one conversion between inches and millimetres. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inches, lengthIn, MM_PER_INCH, millimetres, mmOf, withoutNoise } from '../../../core/units/length.ts';
import { unitOf } from '../../../core/units/length-style.ts';
import { expectWithinRelative } from '../../tolerance.ts';

describe('a length in millimetres', () => {
  test('is the double nearest to the true one for every 1/64 in to 20 ft', () => {
    for (let parts = 0; parts <= 64 * 240; parts += 1) {
      // 25.4 / 64 is 127/320: a quotient of two whole numbers, rounded once.
      expect(mmOf(inches(parts / 64))).toBe((parts * 127) / 320);
    }
  });

  test('is 25.4 times the inches, of either sign, from 1e-6 to 1e6; millimetres stay what they are', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), fc.constantFrom(1, -1), (size, sign) => {
        expectWithinRelative(mmOf(inches(sign * size)), sign * size * MM_PER_INCH, 1e-15);
        expect(mmOf(millimetres(sign * size))).toBe(sign * size);
      }),
      { numRuns: 2000 },
    );
  });

  test('is not finite when what was typed is not', () => {
    expect(mmOf(inches(Number.NaN))).toBeNaN();
    expect(mmOf(inches(Number.NEGATIVE_INFINITY))).toBe(Number.NEGATIVE_INFINITY);
  });
});

describe('a worked-out length', () => {
  test('has no digits that are rounding alone: it is what a person would have typed', () => {
    for (let sixtyFourths = -64 * 48; sixtyFourths <= 64 * 48; sixtyFourths += 7) {
      const typed = sixtyFourths / 64;
      // Through millimetres and three sums, as a row of ports goes.
      const mm = mmOf(inches(typed)) + 107.95 + 0.1 - 107.95 - 0.1;
      expect(lengthIn(mm, 'in')).toEqual(inches(typed));
    }
    expect(withoutNoise(-9.187500000000002)).toBe(-9.1875);
    expect(withoutNoise(0.1 + 0.2)).toBe(0.3);
    expect(Object.is(withoutNoise(-1e-13), 0)).toBe(true);
  });

  test('is the same length to 1e-10 mm, and what is not finite stays so', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e5, max: 1e5, noNaN: true }),
        fc.constantFrom('in' as const, 'mm' as const),
        (mm, unit) => {
          expect(Math.abs(mmOf(lengthIn(mm, unit)) - mm)).toBeLessThanOrEqual(2e-10);
        },
      ),
    );
    expect(withoutNoise(Number.NaN)).toBeNaN();
    expect(withoutNoise(Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
    expect(withoutNoise(1e21)).toBe(1e21);
  });
});

test('a bare number is in inches under every inch style and in millimetres under the others', () => {
  expect(unitOf({ kind: 'fraction', per: 16 })).toBe('in');
  expect(unitOf({ kind: 'decimalInch', places: 3 })).toBe('in');
  expect(unitOf({ kind: 'mm', places: 1 })).toBe('mm');
});
