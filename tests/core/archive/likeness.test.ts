/** Likeness of headers against cases worked by hand. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  describeLikeness,
  type LikenessFigures,
  likenessDistance,
  likenessFigures,
} from '../../../core/archive/likeness.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';

/** Four primaries of 1 3/4 x 0.065 in 304, 34 in long. */
const WANTED: LikenessFigures = {
  material: '304 stainless',
  odMm: 44.45,
  wallMm: 1.651,
  primaryCount: 4,
  targetMm: 863.6,
};
const like = (over: Partial<LikenessFigures>) => ({ ...WANTED, ...over });

describe('by hand, from a four of 1 3/4 in and 34 in', () => {
  test.each([
    ['itself', {}, 0],
    ['the next size of tube, 1 7/8 in', { odMm: 47.625 }, 1],
    ['two sizes down, 1 1/2 in', { odMm: 38.1 }, 2],
    ['a wall of 0.049 in: 0.406 mm less', { wallMm: 1.2446 }, 0.4064],
    ['mild steel', { material: 'mild steel' }, 1],
    ['the same material in capitals', { material: ' 304 STAINLESS' }, 0],
    ['a six', { primaryCount: 6 }, 2],
    ['35.7 in, which is 5 % longer', { targetMm: 906.78 }, 1],
    ['30.6 in, which is 10 % shorter', { targetMm: 777.24 }, 2],
    [
      'an eight of 1 7/8 in mild steel and 5 % longer: 1 + 1 + 4 + 1',
      { odMm: 47.625, material: 'mild steel', primaryCount: 8, targetMm: 906.78 },
      7,
    ],
  ])('%s', (_what, over, distance) => {
    expect(likenessDistance(WANTED, like(over))).toBeCloseTo(distance, 9);
  });

  test('a header without a target is put in order by tube and number alone', () => {
    expect(likenessDistance(like({ targetMm: 0 }), WANTED)).toBe(0);
    expect(likenessDistance(like({ targetMm: 0 }), like({ primaryCount: 3 }))).toBe(1);
  });
});

const figures = fc.record({
  material: fc.constantFrom('304 stainless', 'mild steel', 'titanium'),
  odMm: fc.double({ min: 0, max: 1e9, noNaN: true }),
  wallMm: fc.double({ min: 0, max: 1e9, noNaN: true }),
  primaryCount: fc.nat(40),
  targetMm: fc.double({ min: 0, max: 1e9, noNaN: true }),
});

test('nothing is nearer to a header than one alike, and no distance is below zero', () => {
  fc.assert(
    fc.property(figures, figures, (one, other) => {
      expect(likenessDistance(one, one)).toBe(0);
      expect(likenessDistance(one, other)).toBeGreaterThanOrEqual(0);
    }),
  );
});

test('words say in what the other differs', () => {
  const say = (over: Partial<LikenessFigures>) =>
    describeLikeness(WANTED, like(over), { kind: 'fraction', per: 16 }).replaceAll('\u2009', ' ');
  expect(say({})).toBe('same tube, as many primaries, same length');
  expect(say({ primaryCount: 6, targetMm: 863.6 + 19.05 })).toBe('same tube, 2 primaries more, 3/4" longer');
  expect(say({ primaryCount: 3, targetMm: 863.6 - 6.35 })).toBe('same tube, 1 primary fewer, 1/4" shorter');
  expect(say({ material: 'mild steel' })).toBe('same size in mild steel, as many primaries, same length');
  expect(say({ odMm: 47.625 })).toBe('1 7/8" x 0.065" 304 stainless, as many primaries, same length');
  expect(say({ targetMm: 0 })).toBe('same tube, as many primaries');
});

test('the figures of a header are those of its main tube and its target', () => {
  expect(likenessFigures(demoHeader('demo'))).toMatchObject({ odMm: 44.45, primaryCount: 4 });
});
