/** The search fields of the archive as the question that the store is asked. */

import process from 'node:process';
import { afterEach, describe, expect, test } from 'vitest';
import { EMPTY_SEARCH, readSearch } from '../../../renderer/archive/archive-search.ts';
import { EVERYTHING } from '../../archive-asked.ts';

const read = (texts: Partial<typeof EMPTY_SEARCH>, unit: 'in' | 'mm' = 'in') =>
  readSearch({ ...EMPTY_SEARCH, ...texts }, unit);

test('empty fields ask for everything', () => {
  const { likeId: _l, from: _f, most: _m, ...search } = EVERYTHING;
  expect(read({})).toEqual({ ok: true, search });
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

test('a spread is asked for up to its limit, that included', () => {
  const found = read({ spreadTo: '1/8' });
  const range = found.ok ? found.search.spreadMm : null;
  expect(range?.lowMm).toBeLessThanOrEqual(0);
  expect(range?.highMm).toBeGreaterThanOrEqual(3.175);
  expect(range?.highMm).toBeLessThan(3.176);
});

describe('the day of finishing', () => {
  const days = (finishedFrom: string, finishedTo: string) => {
    const found = read({ finishedFrom, finishedTo });
    return found.ok ? found.search.finishedAt : null;
  };
  test('takes in both days from their first to their last moment, on this clock', () => {
    expect(days('2026-03-01', '2026-03-02')).toEqual({
      low: new Date(2026, 2, 1).getTime(),
      high: new Date(2026, 2, 3).getTime() - 1,
    });
  });
  test('may be open on one side, within what the store takes', () => {
    expect(days('2026-03-01', '')).toEqual({ low: new Date(2026, 2, 1).getTime(), high: 8.64e15 });
    expect(days('', '2026-02-28')?.high).toBe(new Date(2026, 2, 1).getTime() - 1);
  });
  describe('where clocks are or were put forward at midnight', () => {
    const zone = process.env['TZ'];
    afterEach(() => {
      if (zone === undefined) delete process.env['TZ'];
      else process.env['TZ'] = zone;
    });
    test.each([
      // In 2000 this day began at one o'clock; since 2019 clocks are left alone.
      ['America/Sao_Paulo', '2026-10-08', '2026-10-08T03:00:00.000Z', '2026-10-09T02:59:59.999Z'],
      // The day itself begins at one o'clock.
      ['America/Santiago', '2026-09-06', '2026-09-06T04:00:00.000Z', '2026-09-07T02:59:59.999Z'],
      ['Pacific/Auckland', '2026-03-01', '2026-02-28T11:00:00.000Z', '2026-03-01T10:59:59.999Z'],
    ])('%s: %s is that day and no other', (timeZone, day, first, last) => {
      process.env['TZ'] = timeZone;
      const range = days(day, day);
      const label = (ms: number | undefined) => new Date(ms ?? 0).toISOString();
      expect([label(range?.low), label(range?.high)]).toEqual([first, last]);
    });
  });
  test('a day that is not there yet asks for nothing', () => {
    expect(days('', '2026-')).toBeNull();
    expect(days('0', 'x')).toBeNull();
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
