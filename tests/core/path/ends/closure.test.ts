/** How an end's miss is told: gap, tilt, along the inlet and aside of it; and what counts as closed. */

import { describe, expect, test } from 'vitest';
import { closureOf, isClosed } from '../../../../core/path/ends/closure.ts';
import type { Frame } from '../../../../core/path/frame.ts';
import { expectWithin, expectWithinDeg } from '../../../tolerance.ts';
import { expectVector } from '../vector-tolerance.ts';

const INLET: Frame = {
  point: { x: 100, y: 0, z: 0 },
  tangent: { x: 1, y: 0, z: 0 },
  normal: { x: 0, y: 0, z: 1 },
};

const endAt = (x: number, y: number, z: number): Frame => ({ ...INLET, point: { x, y, z } });

test('an end short of its inlet by 12 and beside it by 3 and 4', () => {
  const closure = closureOf(endAt(88, 3, -4), INLET);
  expectVector(closure.gap, { x: 12, y: -3, z: 4 }, 1e-12);
  expectWithin(closure.gapMm, 13, 1e-12);
  expectWithin(closure.alongMm, 12, 1e-12);
  expectWithin(closure.asideMm, 5, 1e-12);
  expectWithinDeg(closure.tiltDeg, 0, 1e-12);
});

test('an end too deep is negative along the inlet', () => {
  expectWithin(closureOf(endAt(103, 0, 0), INLET).alongMm, -3, 1e-12);
});

test.each([1e-6, 0.25, 90, 179.999999, 180])('a tilt of %d degrees is told exactly', (tiltDeg) => {
  const tilt = (tiltDeg * Math.PI) / 180;
  const end = { ...INLET, tangent: { x: Math.cos(tilt), y: Math.sin(tilt), z: 0 } };
  expectWithinDeg(closureOf(end, INLET).tiltDeg, tiltDeg, 1e-12);
});

describe('closed within 0.5 mm and 0.25 degree, 6 deeper and 2 shallower', () => {
  const limits = { gapMm: 0.5, tiltDeg: 0.25, deeperMm: 6, shallowerMm: 2 };
  test.each([
    [100, 0, true],
    [100, 0.5, true],
    [100, 0.51, false],
    [98, 0, true],
    [97.6, 0, true],
    [97.4, 0, false],
    [106, 0, true],
    [106.6, 0, false],
    [97.6, 0.4, false],
  ])('an end at %d, %d', (x, y, expected) => {
    expect(isClosed(closureOf(endAt(x, y, 0), INLET), limits)).toBe(expected);
  });

  test('too much tilt is not closed', () => {
    const end = { ...INLET, tangent: { x: Math.cos(0.005), y: Math.sin(0.005), z: 0 } };
    expect(isClosed(closureOf(end, INLET), limits)).toBe(false);
  });
});
