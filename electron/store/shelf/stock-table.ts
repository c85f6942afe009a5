/** The shelf: one row an item, each with a revision of its own. */

import type Database from 'better-sqlite3';
import { failure, type Problem, type Result, type StockItem, stockItemSchema, success } from '../../../core/index.ts';
import type { StoredRow } from '../rows/columns.ts';
import { cellOf, intactRow } from '../rows/read-row.ts';
import { rowTable } from '../rows/row-table.ts';

export interface StoredStockItem {
  readonly item: StockItem;
  readonly revision: number;
}
type StockRow = StoredRow<'stock'>;

export function stockTable(db: Database.Database) {
  const rows = rowTable(db, 'stock', ['id']);
  // In the order in which items were added.
  const all = db.prepare<[], StockRow>('SELECT * FROM stock ORDER BY place');
  const lastPlace = db.prepare<[], number>('SELECT coalesce(max(place), 0) FROM stock').pluck();

  function write(item: StockItem, at: { readonly place: number; readonly revision: number }): StoredStockItem {
    rows.put({ ...at, id: item.id, item: JSON.stringify(item) });
    return { item, revision: at.revision };
  }

  /** The row, if it is still at the revision that the caller knows. */
  function atRevision(id: string, expected: number): Result<StockRow, Problem> {
    const row = rows.find(id);
    if (!row) return failure({ kind: 'notFound', what: 'stockItem', id });
    if (row.revision !== expected) return failure({ kind: 'changedElsewhere', expected, found: row.revision });
    return success(row);
  }

  return {
    list: (): StoredStockItem[] => all.all().map(storedIn),
    /** Refused when an item of that id is there. */
    add(item: StockItem): Result<StoredStockItem, Problem> {
      const found = rows.find(item.id);
      if (found) return failure({ kind: 'changedElsewhere', expected: 0, found: found.revision });
      return success(write(item, { place: (lastPlace.get() ?? 0) + 1, revision: 1 }));
    },
    replace(item: StockItem, expected: number): Result<StoredStockItem, Problem> {
      const row = atRevision(item.id, expected);
      return row.ok ? success(write(item, { place: row.value.place, revision: expected + 1 })) : row;
    },
    remove(id: string, expected: number): Result<Record<never, never>, Problem> {
      const row = atRevision(id, expected);
      if (!row.ok) return row;
      rows.remove(id);
      return success({});
    },
  };
}

function storedIn(row: StockRow): StoredStockItem {
  const { id, revision, item } = intactRow('stock', row);
  return { item: cellOf(stockItemSchema, item, `stock item ${id}`), revision };
}

export type Stock = ReturnType<typeof stockTable>;
