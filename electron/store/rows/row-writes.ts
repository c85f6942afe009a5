/** Statements that write whole rows with their checksums, for the tables that a step writes to. */

import type Database from 'better-sqlite3';
import { type Covered, cellsOf, checksumOf, columnsOf, type Table } from './checksums.ts';

/** Writes a row. Cells are bound by their place, which takes less time than finding each by its name. */
export type RowWrite<Name extends Table> = (row: Covered<Name>) => void;

export function rowInsert<Name extends Table>(db: Database.Database, table: Name): RowWrite<Name> {
  const columns = [...columnsOf(table), 'checksum'];
  const marks = columns.map(() => '?');
  const insert = db.prepare(`INSERT INTO ${table} (${columns.join(', ')}) VALUES (${marks.join(', ')})`);
  return (row) => {
    const cells = cellsOf(table, row);
    cells.push(checksumOf(table, cells));
    insert.run(cells);
  };
}

/** For the row that has the cells named `key`. Those in `kept` must be as they are stored, and are not written again. */
export function rowUpdate<Name extends Table>(
  db: Database.Database,
  table: Name,
  { key, kept = [] }: { readonly key: readonly string[]; readonly kept?: readonly string[] },
): RowWrite<Name> {
  const columns: readonly string[] = [...columnsOf(table), 'checksum'];
  const written = columns.filter((column) => !key.includes(column) && !kept.includes(column));
  const marked = (names: readonly string[]) => names.map((name) => `${name} = ?`);
  const update = db.prepare(`UPDATE ${table} SET ${marked(written).join(', ')} WHERE ${marked(key).join(' AND ')}`);
  const places = [...written, ...key].map((name) => columns.indexOf(name));
  return (row) => {
    const cells = cellsOf(table, row);
    cells.push(checksumOf(table, cells));
    update.run(places.map((place) => cells[place]));
  };
}
