/** A checksum a row, over all its columns, since SQLite's own checks do not notice a value that changed on disk. */

import { crc32 } from 'node:zlib';
import type Database from 'better-sqlite3';
import type { Steps } from '../backups/steps.ts';

/** Columns of every table that its row's checksum covers, in the order in which they are read. */
const COVERED = {
  headers: ['id'],
  journal: [
    'place',
    'header_id',
    'revision',
    'step_id',
    'action',
    'of_revision',
    'undo_next',
    'redo_next',
    'label',
    'edit',
    'inverse',
    'changed_at',
    'name',
    'state',
    'primary_count',
    'piece_count',
    'before',
  ],
  snapshots: ['header_id', 'edit_meaning', 'revision', 'chain', 'document'],
  archive: [
    'header_id',
    'name',
    'note',
    'finished_at',
    'display',
    'material',
    'od_mm',
    'target_mm',
    'mean_mm',
    'spread_mm',
    'primary_count',
    'words',
    'primaries',
  ],
  bin: ['header_id', 'binned_at'],
  drafts: ['header_id', 'field', 'text'],
  stock: ['place', 'id', 'revision', 'item'],
  requests: ['place', 'id', 'asked', 'answer'],
  preferences: ['id', 'theme', 'density', 'last_header_id'],
  upkeep: ['id', 'opened', 'full_check_at'],
} as const;

export type Table = keyof typeof COVERED;
type Cell = string | number | null;
/** The columns of a table's row that its checksum covers. */
export type Covered<Name extends Table> = Readonly<Record<(typeof COVERED)[Name][number], Cell>>;

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

/** The row with its checksum, ready to be bound to a statement with named parameters. */
export function sealed<Name extends Table, Row extends Covered<Name>>(
  table: Name,
  row: Row,
): Row & { readonly checksum: number } {
  return { ...row, checksum: checksumOf(table, cellsOf(table, row)) };
}

/** Names of the columns that a row's checksum covers, in its order. */
export function columnsOf<Name extends Table>(table: Name): (typeof COVERED)[Name] {
  return COVERED[table];
}

/** What the checksum of a row covers, in its order. */
export function cellsOf<Name extends Table>(table: Name, row: Covered<Name>): Cell[] {
  return COVERED[table].map((column) => (row as Readonly<Record<string, Cell>>)[column] ?? null);
}

/** Whether a row read back is as it was written. */
export function isIntact<Name extends Table>(table: Name, row: Covered<Name> & { readonly checksum: number }): boolean {
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
  for (const table of Object.keys(COVERED) as Table[]) {
    const columns = COVERED[table];
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
