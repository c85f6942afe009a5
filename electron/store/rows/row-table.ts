/** A table as whole rows: written with their checksums, found by their key. */

import type Database from 'better-sqlite3';
import { cellsOf, checksumOf } from './checksums.ts';
import { type Cell, columnsOf, type Row, type StoredRow, type Table } from './columns.ts';

export interface RowTable<Name extends Table> {
  /** Returns the checksum of the row. */
  insert(row: Row<Name>): number;
  /** In the place of the row with the same key, if there is one. */
  put(row: Row<Name>): number;
  /** Not yet checked. */
  find(...key: readonly Cell[]): StoredRow<Name> | undefined;
  remove(...key: readonly Cell[]): void;
}

/** `key` names the columns of the primary key, or of another that is unique. */
export function rowTable<Name extends Table>(
  db: Database.Database,
  table: Name,
  key: readonly (keyof Row<Name> & string)[],
): RowTable<Name> {
  const columns = [...columnsOf(table), 'checksum'];
  const into = `INTO ${table} (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`;
  const sets = columns.map((column) => `${column} = excluded.${column}`).join(', ');
  const where = `WHERE ${key.map((column) => `${column} = ?`).join(' AND ')}`;
  const insert = db.prepare(`INSERT ${into}`);
  const put = db.prepare(`INSERT ${into} ON CONFLICT (${key.join(', ')}) DO UPDATE SET ${sets}`);
  const find = db.prepare<Cell[], StoredRow<Name>>(`SELECT * FROM ${table} ${where}`);
  const remove = db.prepare(`DELETE FROM ${table} ${where}`);
  function write(statement: Database.Statement, row: Row<Name>): number {
    const cells = cellsOf(table, row);
    const checksum = checksumOf(table, cells);
    statement.run(...cells, checksum);
    return checksum;
  }
  return {
    insert: (row) => write(insert, row),
    put: (row) => write(put, row),
    find: (...cells) => find.get(...cells),
    remove: (...cells) => void remove.run(...cells),
  };
}
