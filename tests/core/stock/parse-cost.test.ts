/** Costs and walls as shops write them: by rule, and refused where nobody could tell. */

import { describe, expect, test } from 'vitest';
import { describeProblem } from '../../../core/describe-problem.ts';
import { describeStockReading } from '../../../core/stock/csv/stock-reading.ts';
import { parseCost } from '../../../core/stock/parse-cost.ts';
import { parseWall } from '../../../core/stock/parse-wall.ts';

const costOf = (text: string) => {
  const read = parseCost(text);
  return read.ok ? read.value.cost : read.problems.map(describeProblem).join(' ');
};

describe('a cost', () => {
  test.each([
    ['12.50', 12.5],
    ['12', 12],
    ['$12.50', 12.5],
    ['12,50 €', 12.5],
    ['£ 1,250.00', 1250],
    ['1.250,00 kr', 1250],
    ['EUR 12,5', 12.5],
    ['1 250,00', 1250],
    ["CHF 1'250.75", 1250.75],
    ['1,234,567', null],
    ['1,000,000', 1_000_000],
    ['0', 0],
  ])('%s', (text, cost) => {
    if (cost === null) expect(costOf(text)).toMatch(/from 0 to 1000000/);
    else expect(costOf(text)).toBe(cost);
  });

  test.each(['-5', '12..5', '1,25,0', '$12 €', 'twelve', '', '1,2.3,4', '12 34', '1e5', '$'.repeat(5000)])(
    'refuses %s',
    (text) => expect(costOf(text)).toMatch(/type an amount from 0|is empty/),
  );

  test('a lone comma before three digits is refused, for it can be either', () => {
    expect(costOf('1,250')).toMatch(/"1,250".*1250 or 1.25/);
  });

  test('what was read by rule is said', () => {
    expect(parseCost('12,50 €')).toMatchObject({ value: { sign: '€', hasDecimalComma: true } });
    expect(describeStockReading({ kind: 'cost', text: '12,50 €', cost: 12.5, sign: '€' })).toBe(
      `"12,50 €" is read as 12.5: costs are in the shop's own money, so € is left out.`,
    );
  });
});

describe('a wall', () => {
  // BWG 16 is 0.065 in (The Engineering ToolBox, "BWG - Birmingham Wire Gauge").
  test.each(['16 ga', '16ga', '16 gauge', '16 Gage', '16 ga.'])('%s is 0.065 in', (text) => {
    expect(parseWall(text, 'mm')).toEqual({ ok: true, value: { wall: { value: 0.065, unit: 'in' }, gauge: 16 } });
  });

  test('a length is a length, in millimetres too', () => {
    expect(parseWall('1.65', 'mm')).toMatchObject({ value: { wall: { value: 1.65, unit: 'mm' }, gauge: null } });
    expect(parseWall('0.065', 'in')).toMatchObject({ value: { wall: { value: 0.065, unit: 'in' } } });
  });

  test('a gauge that tube does not come in is refused with those that there are', () => {
    const read = parseWall('3 ga', 'in');
    expect(read.ok ? '' : read.problems.map(describeProblem).join()).toMatch(/"3 ga": tube comes in gauges 10 to 22/);
  });
});
