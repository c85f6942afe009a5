/** Showing of lengths and angles: rounding, carrying, signs, and that what is shown reads back. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatAngle, formatAngleBare } from '../../../core/units/format-angle.ts';
import {
  addsUpAsShown,
  formatDeviation,
  formatFeetInches,
  formatLength,
  formatLengthBare,
  isShownAsZero,
} from '../../../core/units/format-length.ts';
import { formatTyped } from '../../../core/units/format-typed.ts';
import { inches, type Length, MM_PER_INCH, mmOf } from '../../../core/units/length.ts';
import type { LengthStyle } from '../../../core/units/length-style.ts';
import { parseLength, parseSignedLength } from '../../../core/units/parse-length.ts';

const RUNS = { numRuns: 2000 };
const SIXTEENTHS: LengthStyle = { kind: 'fraction', per: 16 };
const SIXTY_FOURTHS: LengthStyle = { kind: 'fraction', per: 64 };
const TENTHS_OF_MM: LengthStyle = { kind: 'mm', places: 1 };
const THOUSANDTHS: LengthStyle = { kind: 'decimalInch', places: 3 };

describe('a length is shown in the style asked for', () => {
  test.each<[number, LengthStyle, string]>([
    [34.5625 * 25.4, SIXTEENTHS, '34\u20099/16"'],
    [0.5625 * 25.4, SIXTEENTHS, '9/16"'],
    [3 * 25.4, SIXTEENTHS, '3"'],
    [2.75 * 25.4, SIXTY_FOURTHS, '2\u20093/4"'],
    [14 * 25.4, SIXTEENTHS, '14"'],
    [0, SIXTEENTHS, '0"'],
    [0, TENTHS_OF_MM, '0.0 mm'],
    [70, TENTHS_OF_MM, '70.0 mm'],
    [70, { kind: 'mm', places: 0 }, '70 mm'],
    [34.5625 * 25.4, THOUSANDTHS, '34.563"'],
    [-2.75 * 25.4, SIXTEENTHS, '\u22122\u20093/4"'],
    [-0.04, TENTHS_OF_MM, '0.0 mm'],
    [0.05, TENTHS_OF_MM, '0.1 mm'],
    [0.005, { kind: 'mm', places: 2 }, '0.01 mm'],
    [999.96, TENTHS_OF_MM, '1000.0 mm'],
    [Number.NaN, TENTHS_OF_MM, '\u2014'],
    [Number.POSITIVE_INFINITY, SIXTEENTHS, '\u2014'],
  ])('%d mm in %o is %s', (mm, style, text) => {
    expect(formatLength(mm, style)).toBe(text);
  });

  test.each<[number, 8 | 16 | 32 | 64, string]>([
    [15 + 63.5 / 64, 64, '16'],
    [15 + 63.4 / 64, 64, '15\u200963/64'],
    [15 + 15.5 / 16, 16, '16'],
    [1 / 32, 16, '1/16'],
    [-1 / 32, 16, '\u22121/16'],
    [2 + 1 / 32, 16, '2\u20091/16'],
    [1 / 33, 16, '0'],
    [-1 / 33, 16, '0'],
    [7.5 / 8, 8, '1'],
    [2 / 64, 32, '1/32'],
  ])('%d in to 1/%d is %s: halves go away from zero, and a full inch carries', (value, per, text) => {
    expect(formatLengthBare(value * MM_PER_INCH, { kind: 'fraction', per })).toBe(text);
  });

  test('a half is a half wherever the conversion from millimetres puts its last digit', () => {
    for (let sixteenths = 0; sixteenths < 16 * 240; sixteenths += 1) {
      const shown = formatLengthBare(((sixteenths + 0.5) / 16) * MM_PER_INCH, SIXTEENTHS);
      expect(shown).toBe(formatLengthBare(((sixteenths + 1) / 16) * MM_PER_INCH, SIXTEENTHS));
    }
  });

  test('a deviation carries its sign, and none when it rounds to nothing', () => {
    expect(formatDeviation(25.4 / 16, SIXTEENTHS)).toBe('+1/16');
    expect(formatDeviation(-25.4 / 16, SIXTEENTHS)).toBe('\u22121/16');
    expect(formatDeviation(0.1, SIXTEENTHS)).toBe('0');
    expect(formatDeviation(-0.1, SIXTEENTHS)).toBe('0');
    expect(formatDeviation(2.5, TENTHS_OF_MM)).toBe('+2.5');
    expect(formatDeviation(-0.01, TENTHS_OF_MM)).toBe('0.0');
    expect(formatDeviation(Number.NaN, TENTHS_OF_MM)).toBe('\u2014');
  });

  test('feet are shown only by the function that is asked for them', () => {
    expect(formatFeetInches(14.5 * 25.4, 16)).toBe('1\' 2\u20091/2"');
    expect(formatFeetInches(24 * 25.4, 16)).toBe('2\' 0"');
    expect(formatFeetInches(-0.75 * 25.4, 16)).toBe('\u22123/4"');
    expect(formatFeetInches((12 - 1 / 64) * 25.4, 16)).toBe('1\' 0"');
    expect(formatLengthBare(240 * 25.4, SIXTEENTHS)).toBe('240');
  });

  test('angles lose their trailing zeros and keep two places at most', () => {
    expect(formatAngle(90)).toBe('90°');
    expect(formatAngle(22.5)).toBe('22.5°');
    expect(formatAngle(118.97953)).toBe('118.98°');
    expect(formatAngle(-45)).toBe('\u221245°');
    expect(formatAngle(-0.001)).toBe('0°');
    expect(formatAngleBare(100)).toBe('100');
    expect(formatAngle(Number.NaN)).toBe('\u2014');
  });
});

describe('what is shown is the length, to half of the last place', () => {
  const mm = fc.double({ min: -6100, max: 6100, noNaN: true });
  const styles: readonly (readonly [LengthStyle, number])[] = [
    ...([8, 16, 32, 64] as const).map((per) => [{ kind: 'fraction', per }, MM_PER_INCH / per] as const),
    ...([2, 3, 4] as const).map((places) => [{ kind: 'decimalInch', places }, MM_PER_INCH / 10 ** places] as const),
    ...([0, 1, 2] as const).map((places) => [{ kind: 'mm', places }, 1 / 10 ** places] as const),
  ];

  test.each(styles)('in %o', (style, stepMm) => {
    fc.assert(
      fc.property(mm, (lengthMm) => {
        const read = parseSignedLength(formatLength(lengthMm, style), 'mm');
        expect(read.ok).toBe(true);
        if (read.ok) expect(Math.abs(mmOf(read.value) - lengthMm)).toBeLessThanOrEqual(stepMm / 2 + 1e-8);
      }),
      RUNS,
    );
  });
});

describe('what is typed, kept, written and read again stays what it was', () => {
  test('every 1/64 in to 20 ft, shown in 64ths and written for editing', () => {
    for (let parts = 0; parts <= 64 * 240; parts += 1) {
      const length = inches(parts / 64);
      const shown = parseLength(formatLength(mmOf(length), SIXTY_FOURTHS), 'mm');
      const typed = parseLength(formatTyped(length), 'mm');
      if (!shown.ok || !typed.ok) throw new Error(`${parts}/64 in was not read back`);
      if (shown.value.value !== length.value || shown.value.unit !== 'in') throw new Error(`${parts}/64 in shown`);
      if (typed.value.value !== length.value || typed.value.unit !== 'in') throw new Error(`${parts}/64 in typed`);
    }
  });

  test('every 0.1 mm to 6 m, shown in tenths and written for editing', () => {
    for (let tenths = 0; tenths <= 60_000; tenths += 1) {
      const length: Length = { value: tenths / 10, unit: 'mm' };
      const shown = parseLength(formatLength(mmOf(length), TENTHS_OF_MM), 'in');
      const typed = parseLength(formatTyped(length), 'in');
      if (!shown.ok || !typed.ok) throw new Error(`${tenths}/10 mm was not read back`);
      if (shown.value.value !== length.value || shown.value.unit !== 'mm') throw new Error(`${tenths}/10 mm shown`);
      if (typed.value.value !== length.value || typed.value.unit !== 'mm') throw new Error(`${tenths}/10 mm typed`);
    }
  });

  test('any length of either sign and unit, with its unit or without it', () => {
    const value = fc
      .oneof(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.integer({ min: -64e6, max: 64e6 }).map((parts) => parts / 64),
        fc.double({ min: -1e-30, max: 1e-30, noNaN: true }),
      )
      .filter((number) => number === 0 || Math.abs(number) >= 1e-40)
      .map((number) => (number === 0 ? 0 : number));
    fc.assert(
      fc.property(value, fc.constantFrom('in' as const, 'mm' as const), (number, unit) => {
        const length = { value: number, unit };
        expect(parseSignedLength(formatTyped(length), unit === 'in' ? 'mm' : 'in')).toEqual({
          ok: true,
          value: length,
        });
        expect(parseSignedLength(formatTyped(length, unit), unit)).toEqual({ ok: true, value: length });
      }),
      RUNS,
    );
  });

  test.each<[Length, string]>([
    [{ value: 2.75, unit: 'in' }, '2 3/4 in'],
    [{ value: 0.5, unit: 'in' }, '1/2 in'],
    [{ value: 14, unit: 'in' }, '14 in'],
    [{ value: -2.75, unit: 'in' }, '-2 3/4 in'],
    [{ value: 0.065, unit: 'in' }, '0.065 in'],
    [{ value: 0, unit: 'in' }, '0 in'],
    [{ value: 0.1, unit: 'mm' }, '0.1 mm'],
    [{ value: 70, unit: 'mm' }, '70 mm'],
    [{ value: 1e-7, unit: 'mm' }, '0.0000001 mm'],
    [{ value: -1.25e-9, unit: 'mm' }, '-0.00000000125 mm'],
    [{ value: 1e21, unit: 'mm' }, '1000000000000000000000 mm'],
  ])('%o is written %s', (length, text) => {
    expect(formatTyped(length)).toBe(text);
  });
});

test('a length is shown as nothing when it rounds to nothing, whatever its sign', () => {
  const sixteenths = { kind: 'fraction', per: 16 } as const;
  const zero = [0, 0.7, -0.7].map((mm) => isShownAsZero(mm, sixteenths));
  expect(zero).toEqual([true, true, true]);
  expect([0.8, -0.8].map((mm) => isShownAsZero(mm, sixteenths))).toEqual([false, false]);
  expect(isShownAsZero(0.06, { kind: 'mm', places: 1 })).toBe(false);
});

test.each<[readonly number[], number, LengthStyle, boolean]>([
  // 31 15/16 + 1/4 are 32 3/16, and 32 7/32 is shown as 32 1/4.
  [[31.96875 - 0.04, 0.25 + 0.02], 32.19875 + 0.02, SIXTEENTHS, false],
  [[31.9375, 0.25], 32.1875, SIXTEENTHS, true],
  [[36, -0.25], 35.75, SIXTEENTHS, true],
  [[1 / 32, 1 / 32], 1 / 16, SIXTEENTHS, false],
  [[0.5, 0.5], 1, THOUSANDTHS, true],
  [[0.04 / 25.4, 0.04 / 25.4], 0.08 / 25.4, TENTHS_OF_MM, false],
])('%o add up to %d in as shown in %o: %s', (partsIn, sumIn, style, adds) => {
  const shown = addsUpAsShown(
    partsIn.map((value) => value * MM_PER_INCH),
    sumIn * MM_PER_INCH,
    style,
  );
  expect(shown).toBe(adds);
});
