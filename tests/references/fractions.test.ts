/** Fractions and conversions against published worked examples; each source stands beside its check. */

import { describe, expect, test } from 'vitest';
import { pieChordMm } from '../../core/length/pie-cut.ts';
import { formatLengthBare } from '../../core/units/format-length.ts';
import { formatTyped } from '../../core/units/format-typed.ts';
import { inches, MM_PER_INCH, mmOf } from '../../core/units/length.ts';
import type { LengthStyle } from '../../core/units/length-style.ts';
import { parseLength } from '../../core/units/parse-length.ts';
import { expectWithin } from '../tolerance.ts';

function inchesOf(text: string): number {
  const length = parseLength(text, 'in');
  if (!length.ok) throw new Error(`${text} was not read`);
  return length.value.value;
}

const EIGHTHS: LengthStyle = { kind: 'fraction', per: 8 };
/** As shown, with the thin space made plain so that the checks read as their sources print. */
const shown = (lengthIn: number, style: LengthStyle) =>
  formatLengthBare(lengthIn * MM_PER_INCH, style).replace('\u2009', ' ');

describe('arithmetic in fractions', () => {
  // Swagelok MS-13-66 bend calculator, worked example (its 5/16 gain is that tool's, not geometry).
  test('3 + 2 1/2 - 5/16 is 5 3/16, and + 3 - 5/16 is 7 7/8', () => {
    const first = inchesOf('3') + inchesOf('2 1/2') - inchesOf('5/16');
    const second = first + inchesOf('3') - inchesOf('5/16');
    expect(formatTyped(inches(first))).toBe('5 3/16 in');
    expect(formatTyped(inches(second))).toBe('7 7/8 in');
  });

  // 602apprentice.blogspot.com, Rolling offsets (January 2011). Its last subtraction (50 - 6 = 46) is wrong and left out.
  test('rise 47 1/2 - 16 7/8 is 30 5/8, roll 50 - 32 3/8 is 17 5/8, and the true offset is 35 3/8', () => {
    const rise = inchesOf('47 1/2') - inchesOf('16 7/8');
    const roll = inchesOf('50') - inchesOf('32 3/8');
    expect([formatTyped(inches(rise)), formatTyped(inches(roll))]).toEqual(['30 5/8 in', '17 5/8 in']);
    expectWithin(Math.hypot(rise, roll) * MM_PER_INCH, 35.334561692485 * MM_PER_INCH, 1e-9);
    expect(shown(Math.hypot(rise, roll), EIGHTHS)).toBe('35 3/8');
  });

  // Porcupine Press, Concentric Bends, porcupinepress.com/_bending/Concentric.htm: chords to the nearest 1/8 in as it
  // prints them.
  test.each([
    [20, '2 1/8'],
    [24.375, '2 1/2'],
    [28.75, '3'],
  ])('the pie of a 90 in 15 at CLR %d in is shown as %s', (clrIn, text) => {
    expect(shown(pieChordMm({ clrMm: clrIn, angleDeg: 90, pies: 15 }), EIGHTHS)).toBe(text);
  });
});

describe('conversion', () => {
  // International inch, 1959 (NIST SP 811 B.6), from memory; 2 3/4 in computed also by mathjs.
  test.each([
    ['1 in', 25.4],
    ['2 3/4 in', 69.85],
    ['1 1/2 in', 38.1],
  ])('%s is exactly %d mm', (text, mm) => {
    const length = parseLength(text, 'mm');
    expect(length.ok ? mmOf(length.value) : Number.NaN).toBe(mm);
  });
});
