/** The search fields of the archive as the question that the store is asked. */

import { describe, expect, test } from 'vitest';
import { EMPTY_SEARCH, readSearch } from '../../../renderer/archive/archive-search.ts';

const read = (texts: Partial<typeof EMPTY_SEARCH>, unit: 'in' | 'mm' = 'in') =>
  readSearch({ ...EMPTY_SEARCH, ...texts }, unit);

test('empty fields ask for everything', () => {
  expect(read({})).toEqual({ ok: true, search: { words: '', odMm: null, primaryCount: null, targetMm: null } });
});

describe('a tube OD', () => {
  const finds = (typed: string, odMm: number) => {
    const found = read({ od: typed });
    const range = found.ok ? found.search.odMm : null;
    return range !== null && range.lowMm <= odMm && odMm <= range.highMm;
  };
  test('finds the same tube entered in the other unit', () => {
    expect(finds('1 3/4', 44.45)).toBe(true);
    expect(finds('1 3/4', 44.5)).toBe(true);
    expect(finds('44.5mm', 44.45)).toBe(true);
  });
  test('does not find the next size', () => {
    expect(finds('1 3/4', 45)).toBe(false);
    expect(finds('1 3/4', 41.275)).toBe(false);
    expect(finds('1 3/4', 47.625)).toBe(false);
  });
});

describe('a target length', () => {
  const rangeOf = (texts: Partial<typeof EMPTY_SEARCH>) => {
    const found = read(texts);
    return found.ok ? found.search.targetMm : null;
  };
  test('includes its own limits', () => {
    const range = rangeOf({ targetFrom: '34', targetTo: '36' });
    expect(range?.lowMm).toBeLessThanOrEqual(34 * 25.4);
    expect(range?.highMm).toBeGreaterThanOrEqual(36 * 25.4);
    expect(range?.lowMm).toBeGreaterThan(34 * 25.4 - 0.01);
    expect(range?.highMm).toBeLessThan(36 * 25.4 + 0.01);
  });
  test('may be open on one side, within what the store takes', () => {
    expect(rangeOf({ targetFrom: '34' })?.highMm).toBe(1e9);
    expect(rangeOf({ targetTo: '36' })?.lowMm).toBeLessThanOrEqual(0);
  });
});

test('what cannot be read is said at its field, and nothing is asked', () => {
  const found = read({ od: '1 3/', cylinders: 'four', targetTo: '1,5' });
  expect(found.ok).toBe(false);
  expect(Object.keys(found.ok ? {} : found.problems).sort()).toEqual(['cylinders', 'od', 'targetTo']);
});

test('the number of primaries is a whole number', () => {
  const found = read({ cylinders: ' 8 ' });
  expect(found.ok && found.search.primaryCount).toBe(8);
  expect(read({ cylinders: '4.5' }).ok).toBe(false);
});
