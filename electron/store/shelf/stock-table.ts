/** The shelf: one row an item, each with a revision of its own. */

import type Database from 'better-sqlite3';
import { failure, type Problem, type Result, type StockItem, stockItemSchema, success } from '../../../core/index.ts';
import type { StoredRow } from '../rows/columns.ts';
import { isIntact, readCell, rowTable } from '../rows/row-table.ts';

export interface StoredStockItem {
  readonly item: StockItem;
  readonly revision: number;
}
type StockRow = StoredRow<'stock'>;

export function stockTable(db: Database.Database) {
  const rows = rowTable(db, 'stock', ['id']);
  // In the order in which items were added.
  const all = db.prepare<[], StockRow>('SELECT * FROM stock ORDER BY place');
  const nextPlace = db.prepare<[], number>('SELECT coalesce(max(place), 0) + 1 FROM stock').pluck();
  const count = db.prepare<[], number>('SELECT count(*) FROM stock').pluck();

  function write(item: StockItem, at: { readonly place: number; readonly revision: number }): StoredStockItem {
    rows.put({ ...at, id: item.id, item: JSON.stringify(item) });
    return { item, revision: at.revision };
  }

  const atRevision = (id: string, expected: number) => rowAt(rows.find(id), id, expected);

  return {
    count: (): number => count.get() ?? 0,
    /** Those that are sound; opening the database says that there are others. */
    list: (): StoredStockItem[] => all.all().flatMap(storedIn),
    /** Refused when an item of that id is there. */
    add(item: StockItem): Result<StoredStockItem, Problem> {
      const found = rows.find(item.id);
      if (found) return failure({ kind: 'changedElsewhere', expected: 0, found: found.revision });
      return success(write(item, { place: nextPlace.get() ?? 1, revision: 1 }));
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

/** The row, if it is still at the revision that the caller knows. */
function rowAt(row: StockRow | undefined, id: string, expected: number): Result<StockRow, Problem> {
  if (!row) return failure({ kind: 'notFound', what: 'stockItem', id });
  if (row.revision !== expected) return failure({ kind: 'changedElsewhere', expected, found: row.revision });
  return success(row);
}

function storedIn(row: StockRow): StoredStockItem[] {
  const item = isIntact('stock', row) ? readCell(stockItemSchema, row.item) : null;
  return item === null ? [] : [{ item, revision: row.revision }];
}

export type Stock = ReturnType<typeof stockTable>;
