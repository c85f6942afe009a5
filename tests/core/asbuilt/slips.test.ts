/** What may have been meant by a length as it was typed. */

import { describe, expect, it } from 'vitest';
import { lengthSlips } from '../../../core/asbuilt/mis-entry/slips.ts';
import { inches, millimetres } from '../../../core/units/length.ts';

const meant = (length: Parameters<typeof lengthSlips>[0]) =>
  lengthSlips(length).map(({ length: { value, unit } }) => `${value} ${unit}`);

describe('a length in inches', () => {
  it('may be a step of its fraction off, a whole, changed about, or millimetres', () => {
    expect(meant(inches(3.25))).toEqual(
      expect.arrayContaining(['3.125 in', '3.375 in', '3.5 in', '3.75 in', '4.25 in', '2.25 in', '1.75 in', '3.25 mm']),
    );
  });

  it('as 2 3/8 may be 3 2/8, and 12 may be 21', () => {
    expect(meant(inches(2.375))).toContain('3.25 in');
    expect(meant(inches(12))).toContain('21 in');
  });
});

describe('a length in millimetres', () => {
  it('may be a digit off, ten times as much or a tenth, two digits changed about, or inches', () => {
    expect(meant(millimetres(125))).toEqual(
      expect.arrayContaining(['124 mm', '135 mm', '225 mm', '1250 mm', '12.5 mm', '152 mm', '215 mm']),
    );
    expect(meant(millimetres(50))).toContain('50 in');
  });
});

it('is never what was typed, never twice, and never what no header has', () => {
  for (const length of [inches(1 / 16), inches(0.1), inches(11), inches(5.5), millimetres(3.5), millimetres(2999)]) {
    const list = meant(length);
    expect(new Set(list).size).toBe(list.length);
    expect(list).not.toContain(`${length.value} ${length.unit}`);
    for (const { length: slip } of lengthSlips(length)) {
      const mm = slip.unit === 'in' ? slip.value * 25.4 : slip.value;
      expect(mm).toBeGreaterThanOrEqual(3);
      expect(mm).toBeLessThanOrEqual(3000);
    }
  }
});
