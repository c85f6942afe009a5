/** The shelf: one row an item, each with a revision of its own. */

import type Database from 'better-sqlite3';
import { failure, type Problem, type Result, type StockItem, stockItemSchema, success } from '../../../core/index.ts';
import { sealed } from '../rows/checksums.ts';
import { cellOf, intactRow } from '../rows/read-row.ts';

export interface StoredStockItem {
  readonly item: StockItem;
  readonly revision: number;
}
interface StockRow {
  /** Order in which items were added. */
  readonly place: number;
  readonly id: string;
  readonly revision: number;
  readonly item: string;
  readonly checksum: number;
}

function statementsOn(db: Database.Database) {
  const all = db.prepare<[], StockRow>('SELECT * FROM stock ORDER BY place');
  const find = db.prepare<[string], StockRow>('SELECT * FROM stock WHERE id = ?');
  const lastPlace = db.prepare<[], number>('SELECT coalesce(max(place), 0) FROM stock').pluck();
  const put = db.prepare('INSERT INTO stock VALUES (@place, @id, @revision, @item, @checksum)');
  const replace = db.prepare(
    'UPDATE stock SET revision = @revision, item = @item, checksum = @checksum WHERE id = @id',
  );
  const remove = db.prepare('DELETE FROM stock WHERE id = ?');
  return { all, find, lastPlace, put, replace, remove };
}

export function stockTable(db: Database.Database) {
  const sql = statementsOn(db);

  function write(item: StockItem, at: { readonly place: number; readonly revision: number }): StoredStockItem {
    const row = sealed('stock', { ...at, id: item.id, item: JSON.stringify(item) });
    (at.revision === 1 ? sql.put : sql.replace).run(row);
    return { item, revision: at.revision };
  }

  /** The row, if it is still at the revision that the caller knows. */
  function atRevision(id: string, expected: number): Result<StockRow, Problem> {
    const row = sql.find.get(id);
    if (!row) return failure({ kind: 'notFound', what: 'stockItem', id });
    if (row.revision !== expected) return failure({ kind: 'changedElsewhere', expected, found: row.revision });
    return success(row);
  }

  return {
    list: (): StoredStockItem[] => sql.all.all().map(storedIn),
    /** Refused when an item of that id is there. */
    add(item: StockItem): Result<StoredStockItem, Problem> {
      const found = sql.find.get(item.id);
      if (found) return failure({ kind: 'changedElsewhere', expected: 0, found: found.revision });
      return success(write(item, { place: (sql.lastPlace.get() ?? 0) + 1, revision: 1 }));
    },
    replace(item: StockItem, expected: number): Result<StoredStockItem, Problem> {
      const row = atRevision(item.id, expected);
      return row.ok ? success(write(item, { place: row.value.place, revision: expected + 1 })) : row;
    },
    remove(id: string, expected: number): Result<Record<never, never>, Problem> {
      const row = atRevision(id, expected);
      if (!row.ok) return row;
      sql.remove.run(id);
      return success({});
    },
  };
}

function storedIn(row: StockRow): StoredStockItem {
  const { id, revision, item } = intactRow('stock', row);
  return { item: cellOf(stockItemSchema, item, `stock item ${id}`), revision };
}

export type Stock = ReturnType<typeof stockTable>;
