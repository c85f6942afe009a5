/** Reads the first row of a stock list: which column is where, and in which unit its bare numbers are. */

import { failure, type Result, success } from '../../result.ts';
import type { LengthUnit } from '../../units/length.ts';
import { readColumnName } from '../../units/parse-length.ts';
import { clipped } from '../../units/read-quantity.ts';
import type { StockProblem } from '../stock-problem.ts';
import { LENGTH_COLUMNS, NEEDED_COLUMNS, STOCK_COLUMNS, type StockColumn } from './stock-columns.ts';

export interface PlacedColumn {
  readonly column: StockColumn;
  /** The unit that the column's name gives; null: the reader's. */
  readonly unit: LengthUnit | null;
}

/**
 * Names are taken whatever their case, with spaces, dashes or underscores: `Leg A`, `leg_a`, `OD (mm)`, `wall in`, `CLR inches`.
 * @returns one entry a cell; null for a cell without a name
 */
export function readStockColumns(cells: readonly string[]): Result<readonly (PlacedColumn | null)[], StockProblem> {
  const problems: StockProblem[] = [];
  const placed = cells.map((cell) => {
    if (cell.trim() === '') return null;
    const column = columnNamed(cell);
    if (column === null) problems.push({ kind: 'stockColumnUnknown', column: clipped(cell.trim()) });
    return column;
  });
  const names = placed.flatMap((one) => (one === null ? [] : [one.column]));
  for (const column of STOCK_COLUMNS) {
    const times = names.filter((name) => name === column).length;
    if (times > 1) problems.push({ kind: 'stockColumnTwice', column });
    if (times === 0 && NEEDED_COLUMNS.includes(column)) problems.push({ kind: 'stockColumnMissing', column });
  }
  return problems.length > 0 ? failure(...problems) : success(placed);
}

function columnNamed(cell: string): PlacedColumn | null {
  const { name, unit } = readColumnName(cell);
  if (unit !== null) {
    const lengthColumn = LENGTH_COLUMNS.find((column) => column === name);
    return lengthColumn === undefined ? null : { column: lengthColumn, unit };
  }
  const column = name === 'angle_deg' ? 'angle' : STOCK_COLUMNS.find((one) => one === name);
  return column === undefined ? null : { column, unit: null };
}
