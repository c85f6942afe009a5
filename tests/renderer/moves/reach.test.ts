/** The line of possible lengths: where ranges, target and the others stand, and what a place or a key on it means. */

import { describe, expect, test } from 'vitest';
import type { LengthStyle, ReachableLengths } from '../../../core/index.ts';
import { lengthAfterKey, reachLayout } from '../../../renderer/moves/whole/reach-layout.ts';
import { lengthWords, reachSentences } from '../../../renderer/moves/whole/reach-words.ts';

const INCH: LengthStyle = { kind: 'fraction', per: 16 };
const inch = (count: number) => count * 25.4;
const REACH: ReachableLengths = {
  leastMm: inch(24),
  toMm: inch(48),
  two: [
    { lowMm: inch(24), highMm: inch(30) },
    { lowMm: inch(36), highMm: Number.POSITIVE_INFINITY },
  ],
  three: [{ lowMm: inch(23), highMm: Number.POSITIVE_INFINITY }],
};
const others = [
  { primaryId: 'a', label: '1', lengthMm: inch(35.25) },
  { primaryId: 'b', label: '2', lengthMm: inch(35.3) },
  { primaryId: 'c', label: '4', lengthMm: inch(45) },
  { primaryId: 'd', label: '5', lengthMm: inch(90) },
];
const drawn = (reach = REACH, targetMm: number | null = inch(35.25)) =>
  reachLayout({ reach, targetMm, others, style: INCH }, 320);
const plain = (text: string) => text.replaceAll('\u2009', ' ');

describe('the line of lengths', () => {
  test('holds all ranges, the target, and what lies on it; those that lie together share a name', () => {
    const { two, three, x, marks, ticks } = drawn();
    expect(two).toHaveLength(2);
    expect(two[0]?.x).toBeCloseTo(x(inch(24)), 9);
    expect((two[0]?.x ?? 0) + (two[0]?.width ?? 0)).toBeCloseTo(x(inch(30)), 9);
    expect(three?.[0]?.x).toBeLessThan(two[0]?.x ?? 0);
    expect(marks.map(({ text }) => text)).toEqual(['1, 2', '4']);
    for (const { x: at } of [...ticks, ...marks]) {
      expect(at).toBeGreaterThan(60);
      expect(at).toBeLessThan(320);
    }
  });

  test('reaches as far as a target beyond all that was looked at', () => {
    const { x, highMm } = drawn(REACH, inch(60));
    expect(highMm).toBeGreaterThan(inch(60));
    expect(x(inch(60))).toBeLessThan(320);
  });

  test('gives at each place a length on the fineness shown, within its ends', () => {
    const { lengthAt, x, lowMm, highMm } = drawn();
    for (const place of [-50, 61, 100, 217.3, 306, 900]) {
      const sixteenths = lengthAt(place) / (25.4 / 16);
      expect(Math.abs(sixteenths - Math.round(sixteenths))).toBeLessThan(1e-9);
      expect(lengthAt(place)).toBeGreaterThanOrEqual(lowMm);
      expect(lengthAt(place)).toBeLessThanOrEqual(highMm);
    }
    expect(Math.abs(lengthAt(x(inch(33))) - inch(33))).toBeLessThanOrEqual(25.4 / 32 + 1e-9);
  });

  test('goes by a step of what is shown, by whole inches, and to its ends', () => {
    const line = { lowMm: inch(23.03), highMm: inch(48), style: INCH };
    expect(lengthAfterKey(inch(30), 'ArrowRight', line)).toBeCloseTo(inch(30 + 1 / 16), 9);
    expect(lengthAfterKey(inch(30), 'ArrowDown', line)).toBeCloseTo(inch(30 - 1 / 16), 9);
    expect(lengthAfterKey(inch(30), 'PageUp', line)).toBeCloseTo(inch(31), 9);
    expect(lengthAfterKey(inch(30), 'Home', line)).toBeCloseTo(inch(23 + 1 / 16), 9);
    expect(lengthAfterKey(inch(48), 'ArrowUp', line)).toBeCloseTo(inch(48), 9);
    expect(lengthAfterKey(inch(30), 'x', line)).toBeNull();
  });
});

describe('in words', () => {
  test('a length says with how many bends it can be had', () => {
    expect(plain(lengthWords(inch(40.5), REACH, INCH))).toBe('40 1/2": with 2 or 3 bends');
    expect(plain(lengthWords(inch(33), REACH, INCH))).toBe('33": with 3 bends');
    expect(plain(lengthWords(inch(33), { ...REACH, three: null }, INCH))).toBe('33": not found with 2 bends');
    expect(plain(lengthWords(inch(20), REACH, INCH))).toBe('20": not found with 2 or 3 bends');
  });

  test('all of the chart is said in two sentences', () => {
    expect(reachSentences(REACH, INCH).map(plain)).toEqual([
      'With two bends: 24" to 30", 36" and more.',
      'With three bends: 23" and more.',
    ]);
    expect(reachSentences({ ...REACH, two: [], three: [] }, INCH)).toEqual([
      'With two bends: none.',
      'With three bends: none found.',
    ]);
  });
});
