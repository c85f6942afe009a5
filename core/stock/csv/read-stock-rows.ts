/** Reads a stock list from the rows of a table; what cannot be read is reported by line and column. */

import { failure, type Result, success } from '../../result.ts';
import type { LengthUnit } from '../../units/length.ts';
import type { UnitsProblem } from '../../units/units-problem.ts';
import { stockItemProblems } from '../check-stock-item.ts';
import { stockItemSchema } from '../schema.ts';
import type { StockItem } from '../stock-item.ts';
import type { StockProblem } from '../stock-problem.ts';
import { type Cell, type CellFault, CellReader, type Cells, cellRefused } from './cell-reader.ts';
import { type PlacedColumn, readStockColumns } from './read-stock-columns.ts';
import { LENGTH_COLUMNS, STOCK_COLUMNS, type StockColumn } from './stock-columns.ts';
import type { StockReading } from './stock-reading.ts';

export interface RefusedStockRow {
  /** Row of the table, counted from 1 with the column names as row 1. */
  readonly line: number;
  readonly column: string | null;
  readonly problem: StockProblem | UnitsProblem;
}

export interface ReadStock {
  readonly items: readonly StockItem[];
  readonly refused: readonly RefusedStockRow[];
  /** What was read by a rule: gauges, currency signs and decimal commas of costs. */
  readonly said: readonly StockReading[];
}

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
    return { items: [], refused: [{ line: 1, column: null, problem: { kind: 'stockListEmpty' } }], said: [] };
  const columns = readStockColumns(names);
  if (!columns.ok) {
    const refused = columns.problems.map((problem) => ({
      line: first + 1,
      column: 'column' in problem ? problem.column : null,
      problem,
    }));
    return { items: [], refused, said: [] };
  }
  const items: StockItem[] = [];
  const said: StockReading[] = [];
  const refused: RefusedStockRow[] = [];
  rows.forEach((row, index) => {
    if (index <= first || isBlank(row)) return;
    const item = readRow(row, columns.value, options);
    if (item.ok) {
      items.push(item.value.item);
      said.push(...item.value.said);
    } else refused.push(...item.problems.map((fault) => ({ line: index + 1, ...fault })));
  });
  return { items, refused, said };
}

function isBlank(row: readonly string[]): boolean {
  return row.every((cell) => cell.trim() === '');
}

function readRow(
  row: readonly string[],
  columns: readonly (PlacedColumn | null)[],
  options: { readonly unit: LengthUnit; readonly newId: () => string },
): Result<ReadItem, CellFault> {
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

/** An item, and what of it was read by a rule. */
interface ReadItem {
  readonly item: StockItem;
  readonly said: readonly StockReading[];
}

function readItem(cells: Cells, newId: () => string): Result<ReadItem, CellFault> {
  const reader = new CellReader(cells);
  const kind = reader.text('kind').toLowerCase();
  if (kind !== 'bend' && kind !== 'straight') return failure(cellRefused(cells, 'kind', 'kind'));
  for (const column of kind === 'bend' ? STRAIGHT_ONLY : BEND_ONLY) {
    if (reader.text(column) === '') continue;
    reader.faults.push({ column, problem: { kind: 'stockCellNotWanted', column, itemKind: kind } });
  }
  const common = {
    id: newId(),
    material: cells.get('material')?.text ?? '',
    od: reader.length('od'),
    wall: reader.wall(),
    count: reader.count(),
    note: cells.get('note')?.text ?? '',
    ...reader.extras(),
  };
  const item = { kind, ...common, ...shapeOf(kind, reader) };
  if (reader.faults.length > 0) return failure(...reader.faults);
  const checked = stockItemSchema.safeParse(item);
  if (!checked.success) return failure(...checked.error.issues.map(({ path }) => refusedBySchema(cells, path)));
  const impossible = stockItemProblems(checked.data);
  if (impossible.length > 0) return failure(...impossible.map(placed));
  return success({ item: checked.data, said: reader.said });
}

/** What a bend has and a straight has not, or the other way about. */
function shapeOf(kind: StockItem['kind'], reader: CellReader) {
  if (kind === 'straight') return { length: reader.length('length') };
  return {
    clr: reader.length('clr'),
    angleDeg: reader.angleDeg(),
    legs: [reader.leg('leg_a'), reader.leg('leg_b')],
  };
}

/** A problem of the item as a whole, in the column that most likely holds the slip. */
function placed(problem: StockProblem): CellFault {
  return { column: problem.kind === 'stockClrTooTight' ? 'clr' : 'wall', problem };
}

/** What the schema still refuses in an item whose cells could all be read, by the field that it names. */
function refusedBySchema(cells: Cells, path: readonly PropertyKey[]): CellFault {
  const [field, place] = path;
  if (field === 'angleDeg') return cellRefused(cells, 'angle', 'angleInRange');
  if (field === 'count' || field === 'least') return cellRefused(cells, field, 'count');
  if (field === 'note') return cellRefused(cells, 'note', 'note');
  if (field === 'legs') return cellRefused(cells, place === 1 ? 'leg_b' : 'leg_a', 'lengthInRange');
  const column = LENGTH_COLUMNS.find((name) => name === field);
  return column === undefined ? cellRefused(cells, 'material', 'name') : cellRefused(cells, column, 'aboveZero');
}
