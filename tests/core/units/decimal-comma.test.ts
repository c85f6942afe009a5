/** Decimal commas: what is one, and when a column shows that its commas are decimal. */

import { expect, test } from 'vitest';
import { readCommaColumns, readDecimalCommas } from '../../../core/units/decimal-comma.ts';

test.each([
  ['2,5', '2.5', ['2,5']],
  ['b22,5 r2,5', 'b22.5 r2.5', ['22,5', '2,5']],
  [',5', '.5', [',5']],
  ['1,500', '1.500', ['1,500']],
  ['57 mm', '57 mm', []],
  ['1,234,5', '1,234,5', []],
  ['1.234,5', '1.234,5', []],
  ['2, 5', '2, 5', []],
])('%s is read as %s', (typed, text, numbers) => {
  expect(readDecimalCommas(typed)).toEqual({ text, numbers });
});

test.each<[string, readonly string[], boolean]>([
  ['one that cannot stand between thousands', ['57,5', '60'], true],
  ['beside one that could', ['1,500', '57,25'], true],
  ['only ones that could stand between thousands', ['1,500', '2,250'], false],
  ['a point in the same column', ['57,5', '60.5'], false],
  ['two commas in one number', ['1,234,5'], false],
  ['no comma', ['57', '60'], false],
  ['nothing', [], false],
])('a column with %s', (_name, column, isDecimal) => {
  const rows = column.map((cell) => [cell]);
  const read = readCommaColumns(rows, { holdsWords: () => false, isDecimal: false });
  const points = rows.map(([cell = '']) => [cell.replace(',', '.')]);
  expect(read.rows).toEqual(isDecimal ? points : rows);
  expect(read.numbers).toEqual(isDecimal ? column.filter((cell) => cell.includes(',')) : []);
});

test('columns are judged each for itself, words are left alone, and the language settles the rest', () => {
  const rows = [
    ['57,5', '1,500', 'bend, 2,5 of it', '2,5'],
    ['60', '2,250', '3', '4'],
  ];
  const holdsWords = (column: number) => column === 3;
  expect(readCommaColumns(rows, { holdsWords, isDecimal: false })).toEqual({
    rows: [
      ['57.5', '1,500', 'bend, 2,5 of it', '2,5'],
      ['60', '2,250', '3', '4'],
    ],
    numbers: ['57,5'],
  });
  expect(readCommaColumns(rows, { holdsWords, isDecimal: true }).numbers).toEqual(['57,5', '1,500', '2,250']);
});
