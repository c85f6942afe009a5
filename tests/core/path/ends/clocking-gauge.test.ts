/** Clocking from a gauge, and as a distance round the tube. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { clockingFromGauge, clockingFromMark, clockingMarkMm } from '../../../../core/path/ends/clocking-gauge.ts';
import { expectWithin, expectWithinDeg } from '../../../tolerance.ts';

test.each([
  [10, 55, 45],
  [55, 10, -45],
  [350, 20, 30],
  [-170, 170, -20],
  [0, 180, 180],
  [180, 0, 180],
  [12.5, 12.5, 0],
])('readings of %d and %d, seen from the port, are a clocking of %d', (beforeDeg, bendDeg, expected) => {
  expectWithinDeg(clockingFromGauge({ beforeDeg, bendDeg, lookingFrom: 'port' }), expected, 1e-12);
});

test('seen from the collector the sign turns round, but not that of 180', () => {
  expectWithinDeg(clockingFromGauge({ beforeDeg: 10, bendDeg: 55, lookingFrom: 'collector' }), -45, 1e-12);
  expectWithinDeg(clockingFromGauge({ beforeDeg: 0, bendDeg: 180, lookingFrom: 'collector' }), 180, 1e-12);
});

test('a clocking of 90 on a 2 in tube is a quarter of its circumference', () => {
  expectWithin(clockingMarkMm(50.8, 90), (Math.PI * 50.8) / 4, 1e-12);
  expectWithin(clockingMarkMm(50.8, -90), (-Math.PI * 50.8) / 4, 1e-12);
});

test('mark and clocking are each other’s inverse', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 500, noNaN: true }),
      fc.double({ min: -360, max: 360, noNaN: true }),
      (odMm, deg) => {
        expectWithinDeg(clockingFromMark(odMm, clockingMarkMm(odMm, deg)), deg, 1e-9);
      },
    ),
  );
});

test('what is not a number stays none', () => {
  expect(clockingFromGauge({ beforeDeg: Number.NaN, bendDeg: 0, lookingFrom: 'port' })).toBeNaN();
});
