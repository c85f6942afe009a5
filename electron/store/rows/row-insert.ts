/** Statements that append whole rows with their checksums. */

import type Database from 'better-sqlite3';
import { type Covered, cellsOf, checksumOf, columnsOf, type Table } from './checksums.ts';

/** Appends a row and returns its checksum. Cells are bound by their place, which takes less time than finding each by its name. */
export type RowInsert<Name extends Table> = (row: Covered<Name>) => number;

export function rowInsert<Name extends Table>(db: Database.Database, table: Name): RowInsert<Name> {
  const columns = [...columnsOf(table), 'checksum'];
  const marks = columns.map(() => '?');
  const insert = db.prepare(`INSERT INTO ${table} (${columns.join(', ')}) VALUES (${marks.join(', ')})`);
  return (row) => {
    const cells = cellsOf(table, row);
    const checksum = checksumOf(table, cells);
    insert.run(...cells, checksum);
    return checksum;
  };
}
