/** Sizes to cut by: never shown so coarsely that a piece cut as shown is off. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatCut } from '../../../core/units/format-cut.ts';
import { inches, mmOf } from '../../../core/units/length.ts';
import type { LengthStyle } from '../../../core/units/length-style.ts';
import { parseLength } from '../../../core/units/parse-length.ts';
import { expectWithin } from '../../tolerance.ts';

const sixteenths: LengthStyle = { kind: 'fraction', per: 16 };
const plain = (text: string) => text.replaceAll('\u2009', ' ');

describe('a size to cut', () => {
  test.each<[string, number, LengthStyle, string, string]>([
    ['on the display', mmOf(inches(4 + 15 / 16)), sixteenths, '4 15/16', 'shown'],
    ['a 32nd finer', mmOf(inches(4 + 29 / 32)), sixteenths, '4 29/32', 'finer'],
    ['a 64th finer', mmOf(inches(4 + 1 / 64)), sixteenths, '4 1/64', 'finer'],
    // 70 mm is 2.7559 in: 2 48/64 is 0.15 mm short of it and 2 49/64 0.25 mm over.
    ['on no fraction', 70, sixteenths, '2 3/4', 'rounded'],
    ['an eighth of an inch in decimals', mmOf(inches(2.125)), { kind: 'decimalInch', places: 2 }, '2.125', 'finer'],
    ['half a millimetre', 57.5, { kind: 'mm', places: 0 }, '57.5', 'finer'],
    ['a fraction of an inch in mm', mmOf(inches(1 / 16)), { kind: 'mm', places: 1 }, '1.6', 'shown'],
  ])('%s', (_name, mm, style, text, fineness) => {
    const figure = formatCut(mm, style);
    expect({ ...figure, text: plain(figure.text) }).toEqual({ text, fineness });
  });
});

test('cut as shown, the piece is within 0.05 mm unless the figure says that it is rounded, and then within 1/128 in', () => {
  const styles = fc.constantFrom<LengthStyle>(
    { kind: 'fraction', per: 8 },
    sixteenths,
    { kind: 'decimalInch', places: 2 },
    { kind: 'mm', places: 0 },
  );
  fc.assert(
    fc.property(fc.double({ min: 0, max: 2000, noNaN: true }), styles, (mm, style) => {
      const figure = formatCut(mm, style);
      const read = parseLength(plain(figure.text), style.kind === 'mm' ? 'mm' : 'in');
      if (!read.ok) throw new Error(`${figure.text} cannot be read`);
      expectWithin(mmOf(read.value), mm, figure.fineness === 'rounded' ? 25.4 / 128 + 1e-6 : 0.05 + 1e-6);
    }),
  );
});
