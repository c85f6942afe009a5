/** Reads a stock list from the rows of a table; what cannot be read is reported by line and column. */

import { failure, type Result, success } from '../../result.ts';
import type { Length, LengthUnit } from '../../units/length.ts';
import { parseAngle } from '../../units/parse-angle.ts';
import { parseLength } from '../../units/parse-length.ts';
import { clipped } from '../../units/read-quantity.ts';
import type { UnitsProblem } from '../../units/units-problem.ts';
import { stockItemSchema } from '../schema.ts';
import type { StockItem } from '../stock-item.ts';
import type { StockProblem } from '../stock-problem.ts';
import { type PlacedColumn, readStockColumns } from './read-stock-columns.ts';
import { LENGTH_COLUMNS, STOCK_COLUMNS, type StockColumn } from './stock-columns.ts';

export interface RefusedStockRow {
  /** Row of the table, counted from 1 with the column names as row 1. */
  readonly line: number;
  readonly column: string | null;
  readonly problem: StockProblem | UnitsProblem;
}

export interface ReadStock {
  readonly items: readonly StockItem[];
  readonly refused: readonly RefusedStockRow[];
}

/** A problem and the column that it is about. */
interface CellFault {
  readonly column: StockColumn | null;
  readonly problem: StockProblem | UnitsProblem;
}

interface Cell {
  readonly text: string;
  /** What a bare number in it is in. */
  readonly unit: LengthUnit;
}

/** A row by column; a column that the table does not have is there as an empty cell. */
type Cells = ReadonlyMap<StockColumn, Cell>;

/**
 * Stock items from a table whose first row names the columns of `STOCK_COLUMNS`, in any order.
 *
 * Rows without any text are passed over. A row is taken whole or refused with every problem that it has; when the columns
 * themselves cannot be made out, nothing is taken. Never throws, whatever the cells hold.
 *
 * @param rows cells as text, as a CSV reader gives them
 * @param options.unit unit of lengths that have none in the cell or in the column's name
 * @param options.newId gives each item its id
 */
export function readStockRows(
  rows: readonly (readonly string[])[],
  options: { readonly unit: LengthUnit; readonly newId: () => string },
): ReadStock {
  const first = rows.findIndex((row) => !isBlank(row));
  const names = rows[first];
  if (names === undefined)
    return { items: [], refused: [{ line: 1, column: null, problem: { kind: 'stockListEmpty' } }] };
  const columns = readStockColumns(names);
  if (!columns.ok) {
    const refused = columns.problems.map((problem) => ({
      line: first + 1,
      column: 'column' in problem ? problem.column : null,
      problem,
    }));
    return { items: [], refused };
  }
  const items: StockItem[] = [];
  const refused: RefusedStockRow[] = [];
  rows.forEach((row, index) => {
    if (index <= first || isBlank(row)) return;
    const item = readRow(row, columns.value, options);
    if (item.ok) items.push(item.value);
    else refused.push(...item.problems.map((fault) => ({ line: index + 1, ...fault })));
  });
  return { items, refused };
}

function isBlank(row: readonly string[]): boolean {
  return row.every((cell) => cell.trim() === '');
}

function readRow(
  row: readonly string[],
  columns: readonly (PlacedColumn | null)[],
  options: { readonly unit: LengthUnit; readonly newId: () => string },
): Result<StockItem, CellFault> {
  const extra = row.findIndex((cell, index) => index >= columns.length && cell.trim() !== '');
  if (extra >= 0) {
    const problem = { kind: 'stockRowTooLong', found: row.length, columns: columns.length } as const;
    return failure({ column: null, problem });
  }
  const cells = new Map<StockColumn, Cell>(STOCK_COLUMNS.map((column) => [column, { text: '', unit: options.unit }]));
  columns.forEach((placed, index) => {
    if (placed !== null) cells.set(placed.column, { text: row[index] ?? '', unit: placed.unit ?? options.unit });
  });
  return readItem(cells, options.newId);
}

const BEND_ONLY: readonly StockColumn[] = ['clr', 'angle', 'leg_a', 'leg_b'];
const STRAIGHT_ONLY: readonly StockColumn[] = ['length'];

function readItem(cells: Cells, newId: () => string): Result<StockItem, CellFault> {
  const kind = textOf(cells, 'kind').trim().toLowerCase();
  if (kind !== 'bend' && kind !== 'straight') return failure(cellRefused(cells, 'kind', 'kind'));
  const faults: CellFault[] = [];
  for (const column of kind === 'bend' ? STRAIGHT_ONLY : BEND_ONLY) {
    if (textOf(cells, column).trim() === '') continue;
    faults.push({ column, problem: { kind: 'stockCellNotWanted', column, itemKind: kind } });
  }
  const common = {
    id: newId(),
    material: textOf(cells, 'material'),
    od: readLength(cells, 'od', faults),
    wall: readLength(cells, 'wall', faults),
    count: readCount(cells, faults),
    note: textOf(cells, 'note'),
  };
  const item = { kind, ...common, ...readShape(kind, cells, faults) };
  if (faults.length > 0) return failure(...faults);
  const checked = stockItemSchema.safeParse(item);
  if (checked.success) return success(checked.data);
  return failure(...checked.error.issues.map(({ path }) => refusedBySchema(cells, path)));
}

/** What a bend has and a straight has not, or the other way about. */
function readShape(kind: StockItem['kind'], cells: Cells, faults: CellFault[]) {
  if (kind === 'straight') return { length: readLength(cells, 'length', faults) };
  return {
    clr: readLength(cells, 'clr', faults),
    angleDeg: readAngle(cells, faults),
    legs: [readLeg(cells, 'leg_a', faults), readLeg(cells, 'leg_b', faults)],
  };
}

function textOf(cells: Cells, column: StockColumn): string {
  return cells.get(column)?.text ?? '';
}

/** A stand-in for a cell already found at fault; the item that it is in is never kept. */
const UNREAD: Length = { value: 1, unit: 'mm' };

function readLength(cells: Cells, column: StockColumn, faults: CellFault[]): Length {
  const text = textOf(cells, column);
  if (text.trim() === '') {
    faults.push({ column, problem: { kind: 'stockCellEmpty', column } });
    return UNREAD;
  }
  const length = parseLength(text, cells.get(column)?.unit ?? 'mm');
  if (length.ok) return length.value;
  faults.push(...length.problems.map((problem) => ({ column, problem })));
  return UNREAD;
}

/** Many bends have no legs; an empty cell says so. */
function readLeg(cells: Cells, column: 'leg_a' | 'leg_b', faults: CellFault[]): Length {
  if (textOf(cells, column).trim() === '') return { value: 0, unit: cells.get(column)?.unit ?? 'mm' };
  return readLength(cells, column, faults);
}

function readAngle(cells: Cells, faults: CellFault[]): number {
  const text = textOf(cells, 'angle');
  if (text.trim() === '') {
    faults.push({ column: 'angle', problem: { kind: 'stockCellEmpty', column: 'angle' } });
    return 1;
  }
  const angle = parseAngle(text);
  if (angle.ok) return angle.value;
  faults.push(...angle.problems.map((problem) => ({ column: 'angle' as const, problem })));
  return 1;
}

function readCount(cells: Cells, faults: CellFault[]): number {
  const text = textOf(cells, 'count').trim();
  if (text === '') faults.push({ column: 'count', problem: { kind: 'stockCellEmpty', column: 'count' } });
  else if (!/^[0-9]{1,6}$/.test(text)) faults.push(cellRefused(cells, 'count', 'count'));
  else return Number(text);
  return 0;
}

type Expected = Extract<StockProblem, { kind: 'stockCellRefused' }>['expected'];

function cellRefused(cells: Cells, column: StockColumn, expected: Expected): CellFault {
  const found = clipped(textOf(cells, column).trim());
  if (found === '') return { column, problem: { kind: 'stockCellEmpty', column } };
  return { column, problem: { kind: 'stockCellRefused', column, found, expected } };
}

/** What the schema still refuses in an item whose cells could all be read, by the field that it names. */
function refusedBySchema(cells: Cells, path: readonly PropertyKey[]): CellFault {
  const [field, place] = path;
  if (field === 'angleDeg') return cellRefused(cells, 'angle', 'angleInRange');
  if (field === 'count') return cellRefused(cells, 'count', 'count');
  if (field === 'note') return cellRefused(cells, 'note', 'note');
  if (field === 'legs') return cellRefused(cells, place === 1 ? 'leg_b' : 'leg_a', 'lengthInRange');
  const column = LENGTH_COLUMNS.find((name) => name === field);
  return column === undefined ? cellRefused(cells, 'material', 'name') : cellRefused(cells, column, 'aboveZero');
}
