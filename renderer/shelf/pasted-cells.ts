/** Cells of a spreadsheet put onto the shelf: over rows that are there, or as new rows. */

import { describeProblem, type LengthUnit, readPastedRows, readStockRows, type StockItem } from '../../core/index.ts';
import { COLUMNS, type ColumnId, hasColumn, type RowTexts, retyped } from './shelf-columns.ts';

export type PastedCells =
  | { readonly ok: true; readonly items: readonly StockItem[] }
  | { readonly ok: false; readonly words: string };

/** More rows than anyone pastes at once; bounds the work on a hostile clipboard. */
const MOST_ROWS = 25_000;

/**
 * New rows. A list whose first row names its columns is read by them; otherwise cells are in the order of the fields of `kind`.
 * Taken whole, or refused with the first fault.
 */
export function pastedRows(
  text: string,
  { kind, ...options }: { readonly kind: StockItem['kind']; readonly unit: LengthUnit; readonly newId: () => string },
): PastedCells {
  const rows = readPastedRows(text, { mostRows: MOST_ROWS });
  const isNamed = rows[0]?.some((cell) => cell.trim().toLowerCase() === 'kind') === true;
  const fields = COLUMNS.filter((column) => hasColumn(kind, column)).map(({ id }): string => id);
  const list = isNamed
    ? rows
    : [['kind', ...fields], ...rows.map((cells) => [kind, ...withOneEach(cells, fields.indexOf('count'))])];
  const { items, refused } = readStockRows(list, options);
  const [fault] = refused;
  if (fault === undefined) return { ok: true, items };
  const row = isNamed ? fault.line : fault.line - 1;
  const where = fault.column === null ? `Row ${row}` : `Row ${row}, ${fault.column}`;
  return { ok: false, words: `Nothing was pasted. ${where}: ${describeProblem(fault.problem)}` };
}

/** A row without a count is of one piece, as when it is typed. */
function withOneEach(cells: readonly string[], count: number): readonly string[] {
  if (cells[count]?.trim()) return cells;
  return Array.from({ length: Math.max(cells.length, count + 1) }, (_, at) => (at === count ? '1' : (cells[at] ?? '')));
}

/**
 * The rows from the first on with the cells put into their fields from one column on to the right. Refused whole when one
 * cannot be read, or when there are more cells than fields.
 */
export function pastedOver(
  text: string,
  rows: readonly StockItem[],
  { from, unit }: { readonly from: ColumnId; readonly unit: LengthUnit },
): PastedCells {
  const cells = readPastedRows(text, { mostRows: MOST_ROWS });
  const first = COLUMNS.findIndex(({ id }) => id === from);
  if (cells.length > rows.length)
    return {
      ok: false,
      words: `Nothing was pasted: ${cells.length} rows of cells, but only ${rows.length} from here on.`,
    };
  const items: StockItem[] = [];
  for (const [at, row] of cells.entries()) {
    const item = rows[at];
    if (item === undefined) continue;
    const columns = COLUMNS.slice(first).filter((column) => hasColumn(item.kind, column));
    if (row.length > columns.length)
      return {
        ok: false,
        words: `Nothing was pasted: row ${at + 1} has more cells than there are fields from here on.`,
      };
    const typed: RowTexts = Object.fromEntries(row.map((cell, place) => [columns[place]?.id ?? from, cell]));
    const read = retyped(item, typed, unit);
    if (!read.ok)
      return { ok: false, words: `Nothing was pasted. Row ${at + 1}: ${Object.values(read.problems).join(' ')}` };
    items.push(read.item);
  }
  return { ok: true, items };
}
