/** Where the marks of the shop's charts stand, and what their axes and words say. */

import { describe, expect, test } from 'vitest';
import { chartLayout, monthly, type TimedValue } from '../../../renderer/archive/figures/chart-layout.ts';
import {
  jointsFinding,
  leftFinding,
  spreadFinding,
  UNIT_STYLES,
} from '../../../renderer/archive/figures/shop-words.ts';

const at = (year: number, month: number, day: number, value: number): TimedValue => ({
  at: new Date(year, month - 1, day, 12),
  value,
});
const STEPS = [1, 2, 5, 10, 20, 50, 100];
const asked = (dots: readonly TimedValue[], line: readonly TimedValue[] = [], width = 420) =>
  chartLayout({ width, height: 190, dots, line, curve: 'straight', steps: STEPS, show: String });

describe('a chart', () => {
  test('of nothing is none', () => {
    expect(asked([])).toBeNull();
  });

  test('of one value has its dot in the middle, its day below it, and no line', () => {
    const one = [at(2026, 3, 5, 4)];
    const layout = asked(one, one);
    if (layout === null) throw new Error('nothing is drawn');
    const middle = (layout.box.left + layout.box.right) / 2;
    expect(layout.dots).toHaveLength(1);
    expect(layout.dots[0]?.x).toBeCloseTo(middle, 6);
    expect(layout.xTicks.map(({ label, place }) => [label, Math.round(place - middle)])).toEqual([['5 Mar 2026', 0]]);
    expect(layout.line).toBe('');
  });

  test('begins at zero, ends on a tick, and holds every dot', () => {
    const dots = [at(2026, 1, 3, 0), at(2026, 4, 9, 7), at(2026, 11, 30, 33)];
    const layout = asked(dots, dots);
    if (layout === null) throw new Error('nothing is drawn');
    expect(layout.yTicks.map(({ label }) => label)).toEqual(['0', '10', '20', '30', '40']);
    const [first, last] = [layout.yTicks[0], layout.yTicks.at(-1)];
    expect([first?.place, last?.place]).toEqual([layout.box.bottom, layout.box.top]);
    for (const { x, y } of layout.dots) {
      expect(x).toBeGreaterThanOrEqual(layout.box.left);
      expect(x).toBeLessThanOrEqual(layout.box.right);
      expect(y).toBeGreaterThanOrEqual(layout.box.top);
      expect(y).toBeLessThanOrEqual(layout.box.bottom);
    }
    expect(layout.dots[0]?.y).toBe(layout.box.bottom);
    expect(layout.line.match(/[ML]/g)).toHaveLength(3);
  });

  test.each([2, 5, 30, 70, 400, 4000])('over %i days no two labels meet, and none says the same as another', (days) => {
    const dots = [at(2026, 1, 1, 1), at(2026, 1, 1 + days, 2)];
    const ticks = asked(dots)?.xTicks ?? [];
    expect(ticks.length).toBeGreaterThanOrEqual(1);
    expect(new Set(ticks.map(({ label }) => label)).size).toBe(ticks.length);
    ticks.slice(1).forEach((tick, index) => {
      expect(tick.place - (ticks[index]?.place ?? 0)).toBeGreaterThanOrEqual(85);
    });
  });

  test.each([200, 420, 900])('%i px wide has a label, whatever the days, and none over an end of it', (width) => {
    for (let days = 1; days <= 1500; days += 1) {
      const dots = [at(2026, 3, 27, 1), at(2026, 3, 26 + days, 2)];
      const places = asked(dots, [], width)?.xTicks.map(({ place }) => place) ?? [];
      expect(places.length, `${days} days`).toBeGreaterThanOrEqual(1);
      // Eleven letters of 12 px take some 70.
      expect(Math.min(...places), `${days} days`).toBeGreaterThanOrEqual(35);
      expect(Math.max(...places), `${days} days`).toBeLessThanOrEqual(width - 35);
    }
  });

  test('of inches has ticks that a tape has', () => {
    const { steps, show } = UNIT_STYLES.in;
    const dots = [at(2026, 1, 1, 4), at(2026, 2, 1, 11)];
    const layout = chartLayout({ width: 420, height: 190, dots, line: [], curve: 'straight', steps, show });
    const labels = layout?.yTicks.map(({ label }) => label.replaceAll('\u2009', ' '));
    expect(labels).toEqual(['0"', '1/8"', '1/4"', '3/8"', '1/2"']);
  });
});

test('a month is its median, or its last value, at its last time', () => {
  const values = [at(2026, 2, 1, 9), at(2026, 1, 5, 1), at(2026, 1, 9, 2), at(2026, 1, 20, 6)];
  expect(monthly(values, 'median')).toEqual([at(2026, 1, 20, 2), at(2026, 2, 1, 9)]);
  expect(monthly(values, 'last')).toEqual([at(2026, 1, 20, 6), at(2026, 2, 1, 9)]);
  expect(monthly([], 'median')).toEqual([]);
});

describe('what a chart comes to, in words', () => {
  const one = [at(2026, 1, 1, 3)];
  const many = [...one, at(2026, 1, 2, 5), at(2026, 1, 3, 4)];
  test.each([
    [spreadFinding([], 0, String), 'Nothing is finished yet; the first finished header makes the first dot.'],
    [spreadFinding(one, 0, String), 'One finished header so far, with a spread of 3.'],
    [spreadFinding([], 2, String), '2 headers of fewer than two primaries left out.'],
    [
      spreadFinding(one, 1, String),
      'One finished header, with a spread of 3. 1 header of fewer than two primaries left out.',
    ],
    [spreadFinding(many, 0, String), 'Median 4 over 3 headers; the last one 4.'],
    [jointsFinding([], 0), 'Nothing is finished yet; the first finished header makes the first dot.'],
    [jointsFinding([], 2), 'Of 2 headers it is not known.'],
    [jointsFinding(one, 1), 'One finished header, with 3 joints opened. Of 1 header it is not known.'],
    [jointsFinding(many, 0), 'Median 4 joints over 3 headers; the last one 4.'],
    [leftFinding([], 'ft'), 'The shelf has never held anything yet.'],
    [leftFinding(one, 'ft'), '3.0 ft now; it has changed on one day so far.'],
    [leftFinding(many, 'm'), '4.0 m now, 5.0 m at most.'],
  ])('%s', (words, expected) => {
    expect(words).toBe(expected);
  });
});
