/** A checksum a row, over all its columns, since SQLite's own checks do not notice a value that changed on disk. */

import { crc32 } from 'node:zlib';
import type Database from 'better-sqlite3';
import type { Steps } from '../backups/steps.ts';
import { type Cell, columnsOf, type Row, type StoredRow, TABLES, type Table } from './columns.ts';

/** What the user would miss: tables whose change makes a new backup worth keeping. */
const CONTENT: readonly Table[] = ['headers', 'journal', 'archive', 'bin', 'stock'];

/** Tables of which a damaged row concerns one header and nothing else. */
const OF_ONE_HEADER: readonly string[] = [
  'journal',
  'snapshots',
  'archive',
  'bin',
  'drafts',
] satisfies readonly Table[];

/** Whether damage in this table leaves all other headers as they are. */
export const isOfOneHeader = (table: string): boolean => OF_ONE_HEADER.includes(table);

/** A CRC-32 (ITU-T V.42), signed: any single flipped bit and any burst up to 32 bits of a text changes it. */
export function textChecksum(text: string): number {
  return crc32(text) | 0;
}

/** Of the cells of a row with their types, under the name of its table. */
export function checksumOf(table: Table, cells: readonly Cell[]): number {
  let text: string = table;
  for (const cell of cells)
    text += cell === null ? '\u001f-' : typeof cell === 'number' ? `\u001f#${cell}` : `\u001f$${cell}`;
  return textChecksum(text);
}

/** What the checksum of a row covers, in its order. */
export function cellsOf<Name extends Table>(table: Name, row: Row<Name>): Cell[] {
  return columnsOf(table).map((column) => row[column] as Cell);
}

/** Whether a row read back is as it was written. */
export function isIntact<Name extends Table>(table: Name, row: StoredRow<Name>): boolean {
  return checksumOf(table, cellsOf(table, row)) === row.checksum;
}

export interface RowFindings {
  /** The tables with a damaged row, in words, save those whose rows concern one header each. */
  readonly damaged: readonly string[];
  /** As `damaged`, of what concerns single headers. */
  readonly ofHeaders: readonly string[];
  /** One figure for all that the user entered. */
  readonly fingerprint: string;
}

/** Rows between two places where a check can be interrupted: about a millisecond's work. */
const ROWS_A_STEP = 64;

/** Reads every row of every table; stops for breath now and then. */
export function* rowChecks(db: Database.Database): Steps<RowFindings> {
  const damaged: string[] = [];
  const ofHeaders: string[] = [];
  const figures: number[] = [];
  for (const table of TABLES) {
    const columns = columnsOf(table);
    // The checksum comes last; raw rows are arrays, which are cheaper than objects.
    const rows = db.prepare(`SELECT ${columns.join(', ')}, checksum FROM ${table}`).raw();
    let count = 0;
    let sum = 0;
    let bad = 0;
    for (const row of rows.iterate() as IterableIterator<Cell[]>) {
      const stored = row.pop();
      if (checksumOf(table, row) !== stored) bad += 1;
      count += 1;
      sum = (sum + Number(stored)) % 0x1_0000_0000;
      if (count % ROWS_A_STEP === 0) yield;
    }
    if (bad > 0)
      (isOfOneHeader(table) ? ofHeaders : damaged).push(
        `${table}: ${bad} of ${count} rows do not match their checksum`,
      );
    if (CONTENT.includes(table)) figures.push(count, sum);
  }
  return { damaged, ofHeaders, fingerprint: figures.join('-') };
}
