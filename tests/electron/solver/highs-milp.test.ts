/** HiGHS behind the interface that plans use, on programs small enough to solve by hand. */

import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import type { MilpModel } from '../../../core/stock/plan/milp/milp.ts';
import { highsMilp } from '../../../electron/solver/highs-milp.ts';
import { expectWithin } from '../../tolerance.ts';

const solve = highsMilp(await createRequire(import.meta.url)('highs')());
const ask = { timeLimitS: 10, start: null, isWhole: true } as const;

/** Least 2x + 3z with x + z >= 4.5: 9 with x alone; in whole numbers 10, for x + z >= 5. */
const twoColumns: MilpModel = {
  columns: [
    { high: 10, entries: [[0, 1]] },
    { high: 10, entries: [[0, 1]] },
  ],
  rows: [{ low: 4.5, high: Number.POSITIVE_INFINITY }],
  costs: [2, 3],
};

describe('a program of two columns', () => {
  test('in whole numbers comes to 10', () => {
    const answer = solve(twoColumns, ask);
    if (answer.kind !== 'optimal') throw new Error(answer.kind);
    expect(answer.values.map(Math.round)).toEqual([5, 0]);
    expectWithin(answer.bound, 10, 0.5);
  });

  test('without them comes to 9, at a price of 2 for one more of the row', () => {
    const answer = solve(twoColumns, { ...ask, isWhole: false });
    if (answer.kind !== 'optimal') throw new Error(answer.kind);
    expectWithin(answer.bound, 9, 1e-9);
    expectWithin(answer.rowPrices[0] ?? 0, 2, 1e-9);
  });

  test('that cannot hold is infeasible', () => {
    expect(solve({ ...twoColumns, rows: [{ low: 21, high: 30 }] }, ask)).toEqual({ kind: 'infeasible' });
  });

  test('with a figure that is no number is refused, not answered', () => {
    expect(solve({ ...twoColumns, costs: [Number.NaN, 3] }, ask)).toEqual({ kind: 'failed' });
  });
});
