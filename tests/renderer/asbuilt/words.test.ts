/** What the as-built check says. */

import { describe, expect, it } from 'vitest';
import type { MeasuredLength } from '../../../core/index.ts';
import {
  primaryVerdict,
  readingSentence,
  readingVerdict,
  shareWords,
  watchWords,
} from '../../../renderer/asbuilt/as-built-words.ts';

const STYLE = { kind: 'fraction', per: 16 } as const;
const INCH = 25.4;
const plain = (text: string) => text.replaceAll('\u2009', ' ');

const lengthOf = (change: Partial<MeasuredLength>): MeasuredLength => ({
  kind: 'outsideTape',
  measuredMm: 39.25 * INCH,
  measuredWithinMm: INCH / 8,
  computedMm: 39.1875 * INCH,
  computedWithinMm: INCH / 4,
  differenceMm: INCH / 16,
  verdict: 'agrees',
  ...change,
});

describe('a reading', () => {
  it('stands beside its pieces, each with how far it may be out', () => {
    expect(plain(readingSentence(lengthOf({}), STYLE))).toBe(
      'Measured 39 1/4" ±1/8"; its pieces come to 39 3/16" ±1/4" this way.',
    );
  });

  it('agrees, or says by how much the tube is off and which way', () => {
    expect(plain(readingVerdict(lengthOf({}), STYLE))).toBe('agrees, +1/16"');
    expect(readingVerdict(lengthOf({ differenceMm: 0.1 }), STYLE)).toBe('agrees');
    expect(plain(readingVerdict(lengthOf({ differenceMm: -2.375 * INCH, verdict: 'shorter' }), STYLE))).toBe(
      '2 3/8" shorter than its pieces',
    );
  });
});

it('a primary is said by the reading that is furthest off', () => {
  const longer = lengthOf({ differenceMm: INCH, verdict: 'longer' });
  const most = lengthOf({ differenceMm: 2 * INCH, verdict: 'longer', kind: 'filling' });
  expect(
    [[], [lengthOf({})], [lengthOf({}), longer, most]].map((lengths) => plain(primaryVerdict(lengths, STYLE))),
  ).toEqual(['not measured', 'agrees', '2" longer']);
});

it('shares are whole percent, and the only one that fits has none: others may fit too badly to be listed', () => {
  expect([shareWords(0.934, 0), shareWords(0.001, 2), shareWords(0.998, 0), shareWords(1, 0)]).toEqual([
    'the likeliest, 93 %',
    '1 %',
    'the likeliest, 99 %',
    'the only one that fits',
  ]);
});

it('the joint to watch is said with both of its reaches', () => {
  const words = watchWords({ pieceIndex: 1, clockingMm: 8, angleMm: 6.2, share: 0.41 }, STYLE);
  expect(plain(words)).toBe(
    'Watch the joint before piece 2: 1° of clocking moves the end 5/16", 1° of angle 1/4". It makes 41 % of the scatter.',
  );
});
