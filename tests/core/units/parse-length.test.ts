/** Reading of lengths: what is read, what is refused and why, and that nothing is rounded on the way. */

import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import type { LengthUnit } from '../../../core/units/length.ts';
import { parseLength, parseSignedLength } from '../../../core/units/parse-length.ts';
import type { UnitsProblem } from '../../../core/units/units-problem.ts';
import { onCpu } from '../../cpu-time.ts';

const RUNS = { numRuns: 2000 };

function reasonFor(text: string, unit: LengthUnit = 'in'): readonly [UnitsProblem['reason'], string] | 'read' {
  const result = parseLength(text, unit);
  if (result.ok) return 'read';
  const problem = result.problems[0];
  return problem === undefined ? 'read' : [problem.reason, problem.part];
}

describe('a length is read as people write it', () => {
  test.each([
    ['2 3/4', 2.75],
    ['2-3/4', 2.75],
    ['3/4', 0.75],
    ['0/8', 0],
    ['2.75', 2.75],
    ['2.', 2],
    ['.5', 0.5],
    ['0', 0],
    ['  2   3/4  ', 2.75],
    ['2 3 / 4', 2.75],
    ['2.75"', 2.75],
    ['2 3/4"', 2.75],
    ['2 3/4 in', 2.75],
    ['2 3/4in', 2.75],
    ['2 3/4 IN', 2.75],
    ['2 inches', 2],
    ['2 in.', 2],
    ['2 1/2 inch.', 2.5],
    ['1 inch', 1],
    ['+5', 5],
    ['-0', 0],
    ["1'", 12],
    ["1.5'", 18],
    ["1/2'", 6],
    ['1 1/2 ft', 18],
    ["1' 2", 14],
    ["1' 2 1/2", 14.5],
    ['1\' 2 1/2"', 14.5],
    ["1'2''", 14],
    ['1\'-2 1/2"', 14.5],
    ['1 ft 2 in', 14],
    ['1 foot 2 inches', 14],
    ['3 feet', 36],
    ['0\' 11 63/64"', 11 + 63 / 64],
    ['2½', 2.5],
    ['2 ½', 2.5],
    ['2-½', 2.5],
    ['½', 0.5],
    ['1¼', 1.25],
    ['1¾', 1.75],
    ['1⅛', 1.125],
    ['1⅜', 1.375],
    ['1⅝', 1.625],
    ['1⅞', 1.875],
    ['2 3\u20444', 2.75],
    ['2\u00a03/4', 2.75],
    ['2\u20093/4', 2.75],
    ['2\u202f3/4\u00a0in', 2.75],
    ['2\u20113/4', 2.75],
    ['1\u2032 2\u2033', 14],
    ['1\u2019 2\u201d', 14],
  ])('%s is %d in', (text, value) => {
    expect(parseLength(text, 'in')).toEqual({ ok: true, value: { value, unit: 'in' } });
  });

  test.each([
    ['70mm', 70],
    ['70 mm', 70],
    ['70 MM', 70],
    ['70.5 mm', 70.5],
    ['.1mm', 0.1],
  ])('%s is %d mm whatever the unit of bare numbers', (text, value) => {
    expect(parseLength(text, 'in')).toEqual({ ok: true, value: { value, unit: 'mm' } });
    expect(parseLength(text, 'mm')).toEqual({ ok: true, value: { value, unit: 'mm' } });
  });

  test('a bare number takes the unit given; a unit typed wins over it', () => {
    expect(parseLength('70', 'mm')).toEqual({ ok: true, value: { value: 70, unit: 'mm' } });
    expect(parseLength('70', 'in')).toEqual({ ok: true, value: { value: 70, unit: 'in' } });
    expect(parseLength('2 3/4 in', 'mm')).toEqual({ ok: true, value: { value: 2.75, unit: 'in' } });
    expect(parseLength("1'", 'mm')).toEqual({ ok: true, value: { value: 12, unit: 'in' } });
  });

  test('a minus is taken for coordinates only, in either of its characters', () => {
    expect(parseSignedLength('-2 1/2', 'in')).toEqual({ ok: true, value: { value: -2.5, unit: 'in' } });
    expect(parseSignedLength('\u22122 1/2', 'in')).toEqual({ ok: true, value: { value: -2.5, unit: 'in' } });
    expect(parseSignedLength("-1' 2", 'in')).toEqual({ ok: true, value: { value: -14, unit: 'in' } });
    const zero = parseSignedLength('-0', 'mm');
    expect(zero.ok && Object.is(zero.value.value, 0)).toBe(true);
    expect(reasonFor('-3')).toEqual(['negative', '-3']);
  });
});

describe('what cannot be read is refused with its reason and the part at fault', () => {
  test.each<[string, UnitsProblem['reason'], string]>([
    ['', 'empty', ''],
    [' \u00a0 ', 'empty', ''],
    ['1'.repeat(65), 'tooLong', '1'.repeat(64)],
    ['abc', 'notANumber', 'abc'],
    ['in', 'notANumber', 'in'],
    ['.', 'notANumber', '.'],
    ['-', 'notANumber', '-'],
    ['--3', 'notANumber', '-3'],
    ['NaN', 'notANumber', 'NaN'],
    ['Infinity', 'notANumber', 'Infinity'],
    ['\u0663', 'notANumber', '\u0663'],
    ['3 5/', 'noDenominator', '5/'],
    ['5/', 'noDenominator', '5/'],
    ['3/x', 'noDenominator', '3/'],
    ['5/ 8', 'noDenominator', '5/'],
    ['/8', 'noNumerator', '/8'],
    ['3 /8', 'noNumerator', '/8'],
    ['3-/8', 'noNumerator', '/8'],
    ['/', 'noNumerator', '/'],
    ['1/0', 'zeroDenominator', '1/0'],
    ['2 1/0', 'zeroDenominator', '1/0'],
    ['23/4', 'improperFraction', '23/4'],
    ['2 5/4', 'improperFraction', '5/4'],
    ['4/4', 'improperFraction', '4/4'],
    ['1,5', 'decimalComma', '1,5'],
    ['1,500.25 mm', 'decimalComma', '1,500.25'],
    ['7 cm', 'unknownUnit', 'cm'],
    ['1e3', 'unknownUnit', 'e'],
    ['2 x', 'unknownUnit', 'x'],
    ['2 3', 'leftover', '3'],
    ['2 - 3/4', 'leftover', '- 3/4'],
    ['2 -3/4', 'leftover', '-3/4'],
    ['2- 3/4', 'leftover', '- 3/4'],
    ['2.5 1/2', 'leftover', '1/2'],
    ['2.5-1/2', 'leftover', '-1/2'],
    ['1.2.3', 'leftover', '.3'],
    ['2.5/3', 'leftover', '2.5/3'],
    ['1/2/3', 'leftover', '/3'],
    ['2 in 3', 'leftover', '3'],
    ['5 in in', 'leftover', 'in'],
    ['3-', 'leftover', '-'],
    ["1.5' 2", 'leftover', '2'],
    ["1' 2'", 'leftover', "2'"],
    ["1' 2 mm", 'leftover', '2 mm'],
    ["1' x", 'leftover', 'x'],
    ["1' 12", 'inchesPastAFoot', '12'],
    ['1\' 12 1/2"', 'inchesPastAFoot', '12 1/2"'],
    ['2 3/4 mm', 'fractionOfMillimetre', '2 3/4 mm'],
    ['1000001', 'outOfRange', '1000001'],
    ["100000'", 'outOfRange', "100000'"],
    ['9'.repeat(64), 'outOfRange', '9'.repeat(64)],
  ])('%j: %s at %j', (text, reason, part) => {
    expect(reasonFor(text)).toEqual([reason, part]);
  });

  test('a bare fraction is refused where millimetres are meant', () => {
    expect(reasonFor('2 3/4', 'mm')).toEqual(['fractionOfMillimetre', '2 3/4']);
    expect(reasonFor('½', 'mm')).toEqual(['fractionOfMillimetre', '½']);
  });

  test('a million is read and anything above is not', () => {
    expect(parseLength('1000000', 'mm')).toEqual({ ok: true, value: { value: 1e6, unit: 'mm' } });
    expect(reasonFor('1000000.001', 'mm')).toEqual(['outOfRange', '1000000.001']);
  });

  test('64 characters are read and white space about them does not count', () => {
    const longest = `0.${'0'.repeat(61)}1`;
    expect(longest).toHaveLength(64);
    expect(parseLength(`  ${longest}  `, 'mm')).toEqual({ ok: true, value: { value: 1e-62, unit: 'mm' } });
  });

  test('the text in a problem never ends in half a character', () => {
    const result = parseLength(`${'x'.repeat(63)}\u{1f527}`, 'in');
    expect(result.ok ? '' : result.problems[0]?.text.isWellFormed()).toBe(true);
  });
});

describe('what is typed is rounded once, to the nearest double', () => {
  const whole = fc.integer({ min: 0, max: 99_999 });
  const properFraction = fc
    .tuple(fc.integer({ min: 0, max: 9999 }), fc.integer({ min: 1, max: 9999 }))
    .filter(([over, under]) => over < under);

  test('whole and fraction agree with fraction.js', () => {
    fc.assert(
      fc.property(whole, properFraction, fc.constantFrom(' ', '-', '  '), (inches, [over, under], between) => {
        const typed = parseLength(`${inches}${between}${over}/${under}`, 'in');
        expect(typed).toEqual({
          ok: true,
          value: { value: new Fraction(inches).add(new Fraction(over, under)).valueOf(), unit: 'in' },
        });
      }),
      RUNS,
    );
  });

  test('feet, inches and fraction agree with fraction.js', () => {
    fc.assert(
      fc.property(whole, fc.integer({ min: 0, max: 11 }), properFraction, (feet, inches, [over, under]) => {
        fc.pre(feet < 80_000);
        const expected = new Fraction(feet).mul(12).add(inches).add(new Fraction(over, under)).valueOf();
        expect(parseLength(`${feet}' ${inches} ${over}/${under}"`, 'mm')).toEqual({
          ok: true,
          value: { value: expected, unit: 'in' },
        });
      }),
      RUNS,
    );
  });

  test('decimals are the double that their digits name', () => {
    const digits = fc.stringMatching(/^[0-9]{1,5}\.[0-9]{0,40}$/);
    fc.assert(
      fc.property(digits, (text) => {
        expect(parseLength(text, 'mm')).toEqual({ ok: true, value: { value: Number(text), unit: 'mm' } });
      }),
      RUNS,
    );
  });
});

describe('nothing that is typed makes the reader fail', () => {
  test('any text gives a length of zero or more, or one problem of its own kind', () => {
    const scraps = fc
      .array(fc.constantFrom(...'0123456789 /-+.,\'"½¾°inftm\u2044\u2009\u2212xe'), { maxLength: 80 })
      .map((characters) => characters.join(''));
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary', maxLength: 100 }), scraps), (text) => {
        const result = parseLength(text, 'in');
        if (result.ok) return result.value.value >= 0 && result.value.value <= 1e6;
        return result.problems.length === 1 && result.problems[0]?.kind === 'unreadableLength';
      }),
      { numRuns: 10_000 },
    );
  });

  test('10 kB of text is refused in time that grows no faster than its length', () => {
    const took = (text: string) => {
      const runs = Array.from({ length: 15 }, () => onCpu(() => parseLength(text, 'in')).ms);
      return Math.min(...runs);
    };
    for (const scrap of ['1', '1 ', ' ', '1/', ',', '1,', "'", 'a', '½', '1.']) {
      const long = scrap.repeat(10_000 / scrap.length);
      expect(reasonFor(`1${long}1`)).toEqual(expect.arrayContaining(['tooLong']));
      expect(took(`1${long}1`)).toBeLessThan(2);
    }
  });
});
