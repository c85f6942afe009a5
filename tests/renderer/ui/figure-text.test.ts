/** Fractions are set apart from their wholes, and nothing else is. */

import { expect, test } from 'vitest';
import { formatLength } from '../../../core/units/format-length.ts';
import { MM_PER_INCH } from '../../../core/units/length.ts';
import { figureParts } from '../../../renderer/ui/figure-text.tsx';

const fractionsOf = (text: string) =>
  figureParts(text)
    .filter(({ isFraction }) => isFraction)
    .map((part) => part.text);

test.each<[string, readonly string[]]>([
  ['5\u20091/2"', [' 1/2']],
  ['5 1/2', [' 1/2']],
  ['3/16" short', ['3/16']],
  ['to go 12\u20097/16"', [' 7/16']],
  ['\u00b11/8"', ['1/8']],
  ['\u22122\u20093/4"', [' 3/4']],
  ['31\u200915/16" and 1/4" of 32\u20091/4"', [' 15/16', '1/4', ' 1/4']],
  ['Kick straight 1: 27/54/27 degrees', []],
  ['34.563"', []],
  ['70.0 mm', []],
  ['Primary 3, 4-into-1', []],
  ['', []],
])('in %s', (text, fractions) => {
  expect(fractionsOf(text)).toEqual(fractions);
});

test('the parts together are the text with plain spaces, as it is copied and read out', () => {
  for (let sixtyFourths = 0; sixtyFourths < 64 * 4; sixtyFourths += 1) {
    const text = `${formatLength((sixtyFourths / 64) * MM_PER_INCH, { kind: 'fraction', per: 64 })} long`;
    const whole = figureParts(text).map((part) => part.text);
    expect(whole.join('')).toBe(text.replace('\u2009', ' '));
  }
});
