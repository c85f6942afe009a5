/**
 * A table as whole rows: written with a checksum over all their columns, since SQLite's own checks do not notice a value
 * that changed on disk, found by their key, and checked before anyone relies on what they hold.
 */

import { crc32 } from 'node:zlib';
import type Database from 'better-sqlite3';
import type * as z from 'zod';
import { type Cell, columnsOf, type Row, type StoredRow, type Table } from './columns.ts';

/** `key` names the columns of the primary key, or of another that is unique. */
export function rowTable<Name extends Table>(
  db: Database.Database,
  table: Name,
  key: readonly (keyof Row<Name> & string)[],
) {
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
    /** Returns the checksum of the row. */
    insert: (row: Row<Name>): number => write(insert, row),
    /** In the place of the row with the same key, if there is one. */
    put: (row: Row<Name>): number => write(put, row),
    /** Not yet checked. */
    find: (...cells: readonly Cell[]): StoredRow<Name> | undefined => find.get(...cells),
    remove: (...cells: readonly Cell[]): void => void remove.run(...cells),
  };
}

/** A CRC-32 (ITU-T V.42), signed: any single flipped bit and any burst up to 32 bits of a text changes it. */
export function textChecksum(text: string): number {
  return crc32(text) | 0;
}

/** Of the cells of a row with their types, under the name of its table. */
export function checksumOf(table: Table, cells: readonly Cell[]): number {
  let text: string = table;
  for (const cell of cells) text += `\u001f${cellText(cell)}`;
  return textChecksum(text);
}

/** Bytes stand there by their length and a checksum of their own. */
function cellText(cell: Cell): string {
  if (cell === null) return '-';
  if (typeof cell === 'number') return `#${cell}`;
  return typeof cell === 'string' ? `$${cell}` : `=${cell.length} ${crc32(cell)}`;
}

/** What the checksum of a row covers, in its order. */
export function cellsOf<Name extends Table>(table: Name, row: Row<Name>): Cell[] {
  return columnsOf(table).map((column) => row[column] as Cell);
}

/** Whether a row read back is as it was written. */
export function isIntact<Name extends Table>(table: Name, row: StoredRow<Name>): boolean {
  return checksumOf(table, cellsOf(table, row)) === row.checksum;
}

/** JSON text of a cell as what `schema` describes; null when it is anything else. */
export function readCell<Shape extends z.ZodType>(schema: Shape, json: string): z.output<Shape> | null {
  try {
    const parsed = schema.safeParse(JSON.parse(json));
    return parsed.success ? parsed.data : null;
  } catch (cause) {
    if (cause instanceof SyntaxError) return null;
    throw cause;
  }
}
