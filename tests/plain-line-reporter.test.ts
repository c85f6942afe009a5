/** The last line of a test run counts every case, and every fault outside of one. */

import { expect, test } from 'vitest';
import { type CountedModule, countCases, plainLine } from './plain-line-reporter.ts';

function moduleWith(passed: number, failed: number, faults = 0): CountedModule {
  const allTests = (state?: 'passed' | 'failed') => new Array(state === 'passed' ? passed : failed).fill(null);
  return { children: { allTests }, errors: () => new Array(faults).fill('fault') };
}

test('cases are counted over all files', () => {
  expect(countCases([moduleWith(3, 1), moduleWith(4, 0)], 0)).toEqual({ passed: 7, failed: 1 });
});

test('a file that does not load, and a stray fault, each count as a failure', () => {
  expect(countCases([moduleWith(0, 0, 1)], 2)).toEqual({ passed: 0, failed: 3 });
});

test('the line is plain', () => {
  expect(plainLine({ passed: 12, failed: 0 })).toBe('12 passed, 0 failed');
});
