/** Says in one plain sentence why a row of a stock list was refused, and what would do. */

import { assertNever } from '../result.ts';
import { STOCK_COLUMNS } from './csv/stock-columns.ts';
import type { StockProblem } from './stock-problem.ts';

const EXPECTED_WORDS: Readonly<Record<Extract<StockProblem, { kind: 'stockCellRefused' }>['expected'], string>> = {
  kind: 'type bend or straight',
  name: 'type a name of at most 120 characters',
  note: 'keep the note below 2000 plain characters',
  aboveZero: 'type a length above zero',
  lengthInRange: 'type a length up to a million',
  angleInRange: 'type degrees above 0 and up to 360',
  count: 'type a whole number from 0 to 100000',
};

export function describeStockProblem(problem: StockProblem): string {
  switch (problem.kind) {
    case 'stockColumnMissing':
      return `The first row has no column "${problem.column}": name the columns in it, such as ${STOCK_COLUMNS.join(', ')}.`;
    case 'stockColumnUnknown':
      return `The column "${problem.column}" is not one of a stock list: leave it out, or name it one of ${STOCK_COLUMNS.join(', ')}.`;
    case 'stockColumnTwice':
      return `The column "${problem.column}" is there twice: leave one of them out.`;
    case 'stockListEmpty':
      return `The list has no rows: name the columns in the first row and write one stock item in each row after it.`;
    case 'stockRowTooLong':
      return `The row has ${problem.found} cells but the first row names ${problem.columns} columns: put cells with commas in quotes.`;
    case 'stockCellEmpty':
      return `The ${problem.column} cell is empty: fill it in.`;
    case 'stockCellNotWanted':
      return `A ${problem.itemKind} has no ${problem.column}: leave that cell empty.`;
    case 'stockCellRefused':
      return `The ${problem.column} cell holds "${problem.found}": ${EXPECTED_WORDS[problem.expected]}.`;
    default:
      return assertNever(problem);
  }
}
