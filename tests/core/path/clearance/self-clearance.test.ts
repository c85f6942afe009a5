/** Least gaps of a tube with itself: what counts as coming back past itself, and how near. */

import { describe, expect, test } from 'vitest';
import { selfClearance } from '../../../../core/path/clearance/clearance.ts';
import { expectWithin } from '../../../tolerance.ts';
import { bend, pathOf, pieCut, straight } from '../made-primaries.ts';

describe('a tube with itself', () => {
  test('the legs of a U-bend are twice its CLR apart', () => {
    const found = selfClearance(pathOf([straight(100), bend(60, 180, 0), straight(80)]), 40);
    expectWithin(found?.gapMm ?? Number.NaN, 80, 1e-6);
    expect([found?.pieceIndexA, found?.pieceIndexB].every((index) => index !== undefined)).toBe(true);
  });

  test('two 90s and a straight of 30 between: the legs are 2 CLR + 30 apart', () => {
    const found = selfClearance(
      pathOf([straight(100), bend(60, 90, 0), straight(30), bend(60, 90, 0), straight(80)]),
      40,
    );
    expectWithin(found?.gapMm ?? Number.NaN, 110, 1e-6);
  });

  test('what has not turned by 180 degrees cannot touch itself', () => {
    expect(selfClearance(pathOf([straight(100), bend(60, 170, 0), straight(80)]), 40)).toBeNull();
    expect(selfClearance(pathOf([straight(1), bend(60, 5, 0), straight(1)]), 40)).toBeNull();
    expect(selfClearance(pathOf([]), 40)).toBeNull();
  });

  test('a loop that comes back through its first straight overlaps it', () => {
    // Three quarters of a turn with straights of equal length cross the first straight in its own plane.
    const loop = [straight(200), bend(60, 270, 0), straight(200)];
    const found = selfClearance(pathOf(loop), 40);
    expectWithin(found?.centreDistanceMm ?? Number.NaN, 0, 1e-6);
    expect([found?.pieceIndexA, found?.pieceIndexB]).toEqual([0, 2]);
  });

  test('a coil of two U-bends tilted against each other', () => {
    const found = selfClearance(pathOf([bend(60, 180, 0), straight(50), bend(60, 180, 10), straight(50)]), 40);
    // The second U swings the end over the start on a circle of 120 about the first leg's end: a chord of 10 degrees.
    expectWithin(found?.centreDistanceMm ?? Number.NaN, 240 * Math.sin((5 * Math.PI) / 180), 1e-6);
    expect(found?.gapMm ?? Number.NaN).toBeLessThan(0);
  });

  test('mitres count as turns', () => {
    const found = selfClearance(pathOf([straight(100), pieCut(60, 180, 0, 6), straight(80)]), 40);
    expectWithin(found?.gapMm ?? Number.NaN, 80, 1e-6);
  });
});
