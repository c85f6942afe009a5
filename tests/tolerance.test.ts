/** The comparisons that the other tests lean on fail when they should. */

import { describe, expect, test } from 'vitest';
import { expectWithin, expectWithinDeg, expectWithinRelative } from './tolerance.ts';

describe('a comparison within a tolerance', () => {
  test('passes at the tolerance and fails beyond it, either way', () => {
    expectWithin(10.5, 10, 0.5);
    expectWithin(9.5, 10, 0.5);
    expect(() => expectWithin(10.5001, 10, 0.5)).toThrow('10.5001 mm is not within 0.5 mm of 10 mm');
    expect(() => expectWithin(9.4999, 10, 0.5)).toThrow();
    expect(() => expectWithinDeg(1, 359, 2)).toThrow('degrees');
    expect(() => expectWithinRelative(102, 100, 0.01)).toThrow();
    expectWithinRelative(101, 100, 0.01);
  });

  test('never passes a NaN or an infinity, nor takes a tolerance that is no number', () => {
    expect(() => expectWithin(Number.NaN, 1, 1e9)).toThrow();
    expect(() => expectWithin(1, Number.NaN, 1e9)).toThrow();
    expect(() => expectWithin(Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 1)).toThrow();
    expect(() => expectWithin(1, 1, Number.NaN)).toThrow('compares nothing');
    expect(() => expectWithin(1, 1, -1)).toThrow('compares nothing');
  });
});
