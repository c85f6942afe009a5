/** Factors of covariances, and the limit of chi-squared against published tables. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  chiSquared99,
  choleskyFactor,
  innerProduct,
  logDeterminant,
  whitened,
} from '../../../core/asbuilt/normal-matrix.ts';
import { expectWithin, expectWithinRelative } from '../../tolerance.ts';

describe('the factor', () => {
  const rows = fc.array(fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 4, maxLength: 4 }), {
    minLength: 4,
    maxLength: 4,
  });

  it('times itself turned over is the matrix', () => {
    fc.assert(
      fc.property(rows, (half) => {
        const matrix = half.map((row, i) => half.map((other, j) => innerProduct(row, other) + (i === j ? 0.5 : 0)));
        const factor = choleskyFactor(matrix);
        if (factor === null) throw new Error('it is positive definite');
        for (const [i, row] of matrix.entries()) {
          for (const [j, value] of row.entries())
            expectWithin(innerProduct(factor[i] ?? [], factor[j] ?? []), value, 1e-9);
        }
      }),
    );
  });

  it('is none where a direction has no spread', () => {
    expect(
      choleskyFactor([
        [1, 1],
        [1, 1],
      ]),
    ).toBeNull();
    expect(choleskyFactor([[-1]])).toBeNull();
  });

  it('of 4 and 9 alone: two and three deviations, determinant 36', () => {
    const factor =
      choleskyFactor([
        [4, 0],
        [0, 9],
      ]) ?? [];
    expect(whitened(factor, [2, 6])).toEqual([1, 2]);
    expectWithin(logDeterminant(factor), Math.log(36), 1e-12);
  });
});

// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, upper critical values of chi-square, 0.99.
it.each([
  [1, 6.635, 0.02],
  [2, 9.21, 0.01],
  [3, 11.345, 0.01],
  [5, 15.086, 0.005],
  [8, 20.09, 0.003],
])('99 of 100 lie under the limit for %d degrees of freedom: %d', (degrees, limit, relative) => {
  expectWithinRelative(chiSquared99(degrees), limit, relative);
});
