/** Says in one plain sentence why a row of a stock list, or a step of the stock book, was refused, and what would do. */

import { assertNever } from '../result.ts';
import { formatTypedAngle, typedText } from '../units/format-typed.ts';
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
  gauge: 'tube comes in gauges 10 to 22; type the wall itself, such as 0.065 in or 1.65 mm',
  yesOrNo: 'type yes or no',
  cost: 'type an amount from 0 to 1000000, such as 12.50',
  costClear: 'the comma can part thousands or decimals; type the amount without it, such as 1250 or 1.25',
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
    case 'stockWallTooThick':
      return `A wall of ${typedText(problem.wall)} is more than half of ${typedText(problem.od)} tube, so no bore would be left: put the wall or the OD right.`;
    case 'stockClrTooTight':
      return `A CLR of ${typedText(problem.clr)} is less than half of ${typedText(problem.od)} tube, so the inside of the bend would pass through itself: put the CLR or the OD right.`;
    case 'stockNotEnough':
      return `There ${problem.has === 1 ? 'is' : 'are'} only ${problem.has} of ${problem.item}, so ${problem.wanted} cannot be taken: count the row first, or take fewer.`;
    case 'stockTooMany':
      return `That would make ${problem.wanted} of ${problem.item}: a row holds at most ${problem.limit}.`;
    case 'remnantTooLarge':
      return `What is kept of ${problem.item} comes to ${amountWords(problem.kept, problem.of)}, but only ${amountWords(problem.cut, problem.of)} were cut: keep less, or cut more.`;
    case 'stockChangedSince':
      return `${problem.item} was changed or used since, so this cannot be taken back: take back what came after it first.`;
    case 'piecesChangedSince':
      return `Pieces of ${problem.header} that this plan cut were changed since, so it cannot be taken back: undo on the bench what came after it first.`;
    case 'planTurnedAlone':
      return 'A cut plan moves stock as well, so this is not made again by itself: undo or redo it anew.';
    default:
      return assertNever(problem);
  }
}

function amountWords(amount: number, of: 'bend' | 'straight'): string {
  const rounded = formatTypedAngle(Number(amount.toFixed(2)));
  return of === 'bend' ? `${rounded} degrees` : `${rounded} mm`;
}
