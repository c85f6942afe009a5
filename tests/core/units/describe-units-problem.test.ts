/** The sentences about lengths and angles that could not be read. */

import { describe, expect, test } from 'vitest';
import { describeUnitsProblem } from '../../../core/units/describe-units-problem.ts';
import { parseAngle } from '../../../core/units/parse-angle.ts';
import { parseLength } from '../../../core/units/parse-length.ts';

function sentenceFor(text: string, parse: 'length' | 'angle' = 'length'): string {
  const result = parse === 'length' ? parseLength(text, 'in') : parseAngle(text);
  const problem = result.ok ? undefined : result.problems[0];
  return problem === undefined ? 'it was read' : describeUnitsProblem(problem);
}

describe('a problem is told in one sentence: what was read, why not, what would do', () => {
  test.each([
    ['3 5/', '"3 5/" has no denominator after the slash: type it as 3 5/8.'],
    ['1/', '"1/" has no denominator after the slash: type it as 1/2.'],
    ['4 1/z', '"4 1/z" has no denominator after the slash: type it as 4 1/2.'],
    ['3 5/ in', '"3 5/ in" has no denominator after the slash: type it as 3 5/8 in.'],
    ['/8', '"/8" has no numerator before the slash: type it as 1/8.'],
    ['23/4', '"23/4" has a fraction of one or more in "23/4": type 5 3/4, or 2 3/4 if a space was left out.'],
    ['8/4', '"8/4" has a fraction of one or more in "8/4": type 2.'],
    ['2 5/4', '"2 5/4" has a fraction of one or more in "5/4": type a whole number and a fraction below one.'],
    ['1,5', '"1,5" has a comma in "1,5": use a point for decimals, as in 1.5, and nothing between thousands.'],
    ['7 cm', '"7 cm" has the unit "cm", which is not known here: use in, ", ft, \' or mm.'],
    ['-3', '"-3" is below zero: type a length of zero or more.'],
    ['1/0', '"1/0" divides by zero in "1/0": type a denominator such as 8, 16 or 32.'],
    ['', 'Nothing was typed: type a length such as 2 3/4, 2.75" or 70 mm.'],
  ])('%j', (text, sentence) => {
    expect(sentenceFor(text)).toBe(sentence);
  });

  test('advice that names a text to type can be typed', () => {
    for (const text of ['3 5/', '1/', '63/', '64/', '99/', '/8', '3 /8', '/', '23/4', '16/16', '8/8', '130/4']) {
      const advice = /type (?:it as )?([0-9/ ]+)(?:, or ([0-9/ ]+) if)?/.exec(sentenceFor(text));
      expect(advice, text).not.toBeNull();
      for (const better of advice?.slice(1) ?? []) {
        if (better !== undefined) expect(parseLength(better, 'in').ok, `${text}: ${better}`).toBe(true);
      }
    }
  });

  test('an angle is told about in angles', () => {
    expect(sentenceFor('90 rad', 'angle')).toContain('type degrees, as in 90');
    expect(sentenceFor('', 'angle')).toContain('an angle');
  });

  test('every refusal gives a sentence that ends as one and quotes what was typed', () => {
    for (const text of ['x', '2 3', "1' 13", '2 3/4 mm', '1000001', '3 5/', '5$']) {
      expect(sentenceFor(text)).toMatch(/^".*\.$/);
      expect(sentenceFor(text)).toContain(`"${text}"`);
    }
  });
});
