/** Stock lists as tables: written and read without loss, and refused by line and column. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { describeProblem } from '../../../../core/describe-problem.ts';
import { readCsvRows } from '../../../../core/spreadsheet/read-rows.ts';
import { csvText } from '../../../../core/spreadsheet/write-rows.ts';
import { type ReadStock, readStockRows } from '../../../../core/stock/csv/read-stock-rows.ts';
import { STOCK_COLUMNS } from '../../../../core/stock/csv/stock-columns.ts';
import { stockRows } from '../../../../core/stock/csv/stock-rows.ts';
import { describeStockProblem } from '../../../../core/stock/describe-stock-problem.ts';
import type { StockItem } from '../../../../core/stock/stock-item.ts';
import { inches, millimetres } from '../../../../core/units/length.ts';
import { possible } from '../possible-stock.ts';

function read(rows: readonly (readonly string[])[], unit: 'in' | 'mm' = 'in'): ReadStock {
  let given = 0;
  const newId = () => {
    given += 1;
    return `new-${given}`;
  };
  return readStockRows(rows, { unit, newId });
}

/** A table as typed in a text file, cells cut at `|`. */
function table(...lines: readonly string[]): string[][] {
  return lines.map((line) => line.split('|').map((cell) => cell.trim()));
}

const NAMES = STOCK_COLUMNS.join('|');
const GOOD_BEND = 'bend|304|1 3/4|0.065|3|90|4|4||6|top rack';

const BEND: StockItem = {
  kind: 'bend',
  id: 'new-1',
  material: '304',
  od: inches(1.75),
  wall: inches(0.065),
  clr: inches(3),
  angleDeg: 90,
  legs: [inches(4), inches(4)],
  count: 6,
  note: 'top rack',
};

const STRAIGHT: StockItem = {
  kind: 'straight',
  id: 'new-2',
  material: '304',
  od: millimetres(44.45),
  wall: millimetres(1.65),
  length: millimetres(1500.5),
  count: 0,
  note: '',
};

describe('a stock list', () => {
  test('is written with its columns named and its units in the cells', () => {
    expect(stockRows([BEND, STRAIGHT])).toEqual([
      [...STOCK_COLUMNS],
      ['bend', '304', '1 3/4 in', '0.065 in', '3 in', '90', '4 in', '4 in', '', '6', 'top rack', '', '', ''],
      ['straight', '304', '44.45 mm', '1.65 mm', '', '', '', '', '1500.5 mm', '0', '', '', '', ''],
    ]);
  });

  test('is read back as it was written', () => {
    expect(read(stockRows([BEND, STRAIGHT]), 'mm')).toEqual({ items: [BEND, STRAIGHT], refused: [], said: [] });
    expect(read(stockRows([]))).toEqual({ items: [], refused: [], said: [] });
  });

  test('comes back without loss whatever is in it', () => {
    const unit = fc.constantFrom('in' as const, 'mm' as const);
    const above = fc.record({ value: fc.double({ min: 1e-6, max: 1e6, noNaN: true }), unit });
    const zeroOrMore = fc.oneof(
      above,
      unit.map((name) => ({ value: 0, unit: name })),
    );
    const words = fc.string({ minLength: 1, maxLength: 60 }).filter((text) => text.trim() !== '');
    const common = {
      id: fc.constant('new-1'),
      material: words,
      od: above,
      wall: above,
      count: fc.integer({ min: 0, max: 100_000 }),
      note: fc.string({ maxLength: 200 }),
    };
    const extras = fc.record(
      {
        cost: fc.double({ min: 0, max: 1e6, noNaN: true }).map((cost) => Math.round(cost * 100) / 100),
        least: fc.integer({ min: 1, max: 100_000 }),
        cutFrom: fc.constant(null),
      },
      { requiredKeys: [] },
    );
    const item: fc.Arbitrary<StockItem> = fc.oneof(
      fc.record({
        kind: fc.constant('bend' as const),
        ...common,
        clr: above,
        angleDeg: fc.double({ min: 1e-6, max: 360, noNaN: true }),
        legs: fc.tuple(zeroOrMore, zeroOrMore),
      }),
      fc.record({ kind: fc.constant('straight' as const), ...common, length: above }),
    );
    fc.assert(
      fc.property(possible(item), extras, unit, (plain, more, bareUnit) => {
        const one = { ...plain, ...more };
        expect(read(stockRows([one]), bareUnit)).toEqual({ items: [one], refused: [], said: [] });
      }),
      { numRuns: 2000 },
    );
  });

  test('comes back from its file at its limits, with names and notes that would be formulas', () => {
    const limit: StockItem = {
      ...STRAIGHT,
      material: `=${'\u20ac"'.repeat(59)}x`,
      note: `-\n"${"'=,;\t".repeat(399)}x`,
    };
    const least = { value: 1e-40, unit: 'in' } as const;
    const most = { value: 1e6, unit: 'mm' } as const;
    const items: StockItem[] = [
      { ...limit, id: 'new-1', od: most, wall: least, length: most, count: 100_000 },
      { ...BEND, id: 'new-2', material: '+304', note: '-1', clr: most, angleDeg: 1e-40, legs: [least, most] },
    ];
    const { rows, openQuote } = readCsvRows(csvText(stockRows(items)), { mostRows: 10 });
    expect(openQuote).toBe(null);
    expect(read(rows)).toEqual({ items, refused: [], said: [] });
  });

  test('may have its columns in any order and spelling, and leave out what it does not use', () => {
    const rows = table('COUNT|OD (mm)|Wall in|Material|Kind|Length', '3|44.45|.065|304|Straight|48 in', ' | | | | | ');
    expect(read(rows, 'in').items).toEqual([
      {
        kind: 'straight',
        id: 'new-1',
        material: '304',
        od: millimetres(44.45),
        wall: inches(0.065),
        length: inches(48),
        count: 3,
        note: '',
      },
    ]);
  });

  test('bare numbers take the unit of the column, else of the reader; an empty leg is none', () => {
    const rows = table('kind|material|od|wall|clr_mm|angle_deg|leg a|count', 'bend|304|1 3/4|0.065|76.2|45°||1');
    const noLegs = [inches(0), inches(0)];
    const expected = { ...BEND, clr: millimetres(76.2), angleDeg: 45, legs: noLegs, count: 1, note: '' };
    expect(read(rows).items).toEqual([expected]);
    expect(read(table(NAMES, 'straight|304|44.45|1.65|||||1500|1|'), 'mm').items).toMatchObject([
      { od: millimetres(44.45), length: millimetres(1500) },
    ]);
  });
});

describe('a unit over a column', () => {
  test.each([
    ['od (inches)', inches(1.75)],
    ['OD inch', inches(1.75)],
    ['od "', inches(1.75)],
    ['OD (in.)', inches(1.75)],
    ['od_in', inches(1.75)],
    ['OD, millimetres', millimetres(1.75)],
    ['OD (millimeters)', millimetres(1.75)],
    ['od mm.', millimetres(1.75)],
  ])('"%s" is understood, whatever bare numbers are elsewhere', (head, od) => {
    for (const unit of ['in', 'mm'] as const) {
      const { items, refused } = read(
        [
          ['kind', 'material', head, 'wall', 'length', 'count'],
          ['straight', '304', '1.75', '0.02', '9', '1'],
        ],
        unit,
      );
      expect(refused).toEqual([]);
      expect(items).toMatchObject([{ od, wall: { value: 0.02, unit } }]);
    }
  });

  test.each(['od (cm)', 'count (in)', 'material mm', 'angle in'])('"%s" is refused, not passed over', (head) => {
    const { items, refused } = read(table(`kind|material|od|wall|length|count|${head}`, 'straight|304|1|2|9|1|1'));
    expect(items).toEqual([]);
    expect(refused[0]?.problem.kind).toBe('stockColumnUnknown');
  });

  test('units may be written out in the cells', () => {
    const rows = table('kind|material|od|wall|length|count', 'straight|304|1 3/4 inches|1.65 millimetres|48 in.|1');
    expect(read(rows, 'mm').items).toMatchObject([{ od: inches(1.75), wall: millimetres(1.65), length: inches(48) }]);
  });
});

describe('a row that cannot be read', () => {
  test.each<[string, string, object]>([
    ['cone|304|1 3/4|0.065|3|90|||1|1|', 'kind', { kind: 'stockCellRefused', found: 'cone', expected: 'kind' }],
    ['|304|1 3/4|0.065|3|90||||1|', 'kind', { kind: 'stockCellEmpty' }],
    ['bend||1 3/4|0.065|3|90||||1|', 'material', { kind: 'stockCellEmpty' }],
    ['bend|304|1 3/|0.065|3|90||||1|', 'od', { kind: 'unreadableLength', reason: 'noDenominator', part: '3/' }],
    ['bend|304|1 3/4|0|3|90||||1|', 'wall', { kind: 'stockCellRefused', found: '0', expected: 'aboveZero' }],
    ['bend|304|1 3/4|0.065|-3|90||||1|', 'clr', { kind: 'unreadableLength', reason: 'negative' }],
    ['bend|304|1 3/4|0.065||90||||1|', 'clr', { kind: 'stockCellEmpty' }],
    ['bend|304|1 3/4|0.065|3|||||1|', 'angle', { kind: 'stockCellEmpty' }],
    ['bend|304|1 3/4|0.065|3|x||||1|', 'angle', { kind: 'unreadableAngle', reason: 'notANumber' }],
    ['bend|304|1 3/4|0.065|3|361||||1|', 'angle', { kind: 'stockCellRefused', expected: 'angleInRange' }],
    ['bend|304|1 3/4|0.065|3|-90||||1|', 'angle', { kind: 'stockCellRefused', expected: 'angleInRange' }],
    ['bend|304|1 3/4|0.065|3|90|1,5|||1|', 'leg_a', { kind: 'unreadableLength', reason: 'decimalComma' }],
    ['bend|304|1 3/4|0.065|3|90|||48|1|', 'length', { kind: 'stockCellNotWanted', itemKind: 'bend' }],
    ['straight|304|1 3/4|0.065|3||||48|1|', 'clr', { kind: 'stockCellNotWanted', itemKind: 'straight' }],
    ['straight|304|1 3/4|0.065|||||0|1|', 'length', { kind: 'stockCellRefused', expected: 'aboveZero' }],
    ['bend|304|1 3/4|0.065|3|90|||||', 'count', { kind: 'stockCellEmpty' }],
    ['bend|304|1 3/4|0.065|3|90||||1.5|', 'count', { kind: 'stockCellRefused', expected: 'count' }],
    ['bend|304|1 3/4|0.065|3|90||||-1|', 'count', { kind: 'stockCellRefused', expected: 'count' }],
    ['bend|304|1 3/4|0.065|3|90||||100001|', 'count', { kind: 'stockCellRefused', expected: 'count' }],
    [`bend|304|1 3/4|0.065|3|90||||1|${'n'.repeat(2001)}`, 'note', { kind: 'stockCellRefused', expected: 'note' }],
    [`bend|${'m'.repeat(121)}|1|.1|3|90||||1|`, 'material', { kind: 'stockCellRefused', expected: 'name' }],
  ])('%s: %s', (line, column, problem) => {
    const { items, refused } = read(table(NAMES, GOOD_BEND, line, GOOD_BEND));
    expect(items).toHaveLength(2);
    expect(refused[0]).toMatchObject({ line: 3, column, problem });
    expect(new Set(refused.map(({ line: at }) => at))).toEqual(new Set([3]));
  });

  test('tells every fault that it has', () => {
    const { refused } = read(table(NAMES, 'bend|304|1 3/|0.065|x|90||||-1|'));
    expect(refused.map(({ column }) => column)).toEqual(['od', 'count', 'clr']);
  });

  test('with more cells than columns is refused, but not for empty ones at its end', () => {
    expect(read(table(NAMES, `${GOOD_BEND}||||more`)).refused).toEqual([
      { line: 2, column: null, problem: { kind: 'stockRowTooLong', found: 15, columns: 14 } },
    ]);
    expect(read(table(NAMES, `${GOOD_BEND}|||||`)).items).toHaveLength(1);
  });

  test('counts its line as a spreadsheet does, blank rows included', () => {
    const { refused } = read([[], ...table(NAMES), [], ...table(GOOD_BEND), ['', ' '], ...table('cone|x')]);
    expect(refused.map(({ line }) => line)).toEqual([6]);
  });
});

describe('what shops write', () => {
  const row = (wall: string, cost: string, least = '') => `bend|304|1 3/4|${wall}|3|90|4|4||6||${least}|${cost}|yes`;

  test('gauges, currency signs, decimal commas, least counts and remnants are read, and what was read by a rule is said', () => {
    const { items, refused, said } = read(table(NAMES, row('16 ga', '12,50 €', '4'), row('1.65 mm', '8')), 'in');
    expect(refused).toEqual([]);
    expect(items).toMatchObject([
      { wall: inches(0.065), cost: 12.5, least: 4, cutFrom: null },
      { wall: millimetres(1.65), cost: 8 },
    ]);
    expect(said.map(({ kind, text }) => [kind, text])).toEqual([
      ['gauge', '16 ga'],
      ['cost', '12,50 €'],
    ]);
  });

  test.each([
    [row('0.9', '8'), 'wall', /wall of 0.9".*more than half of 1 3\/4"/],
    [row('3 ga', '8'), 'wall', /gauges 10 to 22/],
    [row('0.065', '1,250'), 'cost', /1250 or 1\.25/],
    [row('0.065', '-8'), 'cost', /from 0 to 1000000/],
    [row('0.065', '8', '-1'), 'least', /whole number from 0/],
    [GOOD_BEND.replace('|3|90|', '|0.8|90|'), 'clr', /CLR of 0\.8".*less than half of 1 3\/4"/],
    [`${GOOD_BEND}|||perhaps`, 'remnant', /type yes or no/],
  ])('%s is refused', (line, column, words) => {
    const { items, refused } = read(table(NAMES, line));
    expect([items, refused.map((fault) => fault.column)]).toEqual([[], [column]]);
    const [fault] = refused;
    expect(fault === undefined ? '' : describeProblem(fault.problem)).toMatch(words);
  });
});

describe('a list whose columns cannot be made out', () => {
  test('gives nothing but what is wrong with them', () => {
    const { items, refused } = read(table('kind|material|od|od mm|colour', GOOD_BEND));
    expect(items).toEqual([]);
    expect(refused).toEqual([
      { line: 1, column: 'colour', problem: { kind: 'stockColumnUnknown', column: 'colour' } },
      { line: 1, column: 'od', problem: { kind: 'stockColumnTwice', column: 'od' } },
      { line: 1, column: 'wall', problem: { kind: 'stockColumnMissing', column: 'wall' } },
      { line: 1, column: 'count', problem: { kind: 'stockColumnMissing', column: 'count' } },
    ]);
    expect(read([]).refused).toEqual([{ line: 1, column: null, problem: { kind: 'stockListEmpty' } }]);
    expect(read([['', ''], []]).refused).toHaveLength(1);
  });
});

describe('whatever the cells hold', () => {
  test('the reader gives items and refusals, and each refusal has a sentence', () => {
    const cell = fc.oneof(
      fc.constantFrom('bend', 'straight', '304', '1 3/4', '90', '3', '', '=1+1', '__proto__', '\ufeffkind'),
      fc.string({ unit: 'binary', maxLength: 12 }),
    );
    const row = fc.array(cell, { maxLength: 13 });
    fc.assert(
      fc.property(fc.array(row, { maxLength: 6 }), fc.boolean(), (rows, isNamed) => {
        const { items, refused } = read(isNamed ? [[...STOCK_COLUMNS], ...rows] : rows);
        expect(items.length).toBeLessThanOrEqual(rows.length);
        for (const { line, problem } of refused) {
          expect(line).toBeGreaterThanOrEqual(1);
          if (!('reason' in problem)) {
            expect(describeStockProblem(problem)).toMatch(/^[A-Z].*: .*\.$/su);
          }
        }
      }),
      { numRuns: 2000 },
    );
  });

  test('the sentences say what was read and what would do', () => {
    expect(describeStockProblem({ kind: 'stockCellRefused', column: 'count', found: '1.5', expected: 'count' })).toBe(
      'The count cell holds "1.5": type a whole number from 0 to 100000.',
    );
    expect(describeStockProblem({ kind: 'stockCellNotWanted', column: 'clr', itemKind: 'straight' })).toBe(
      'A straight has no clr: leave that cell empty.',
    );
  });
});
