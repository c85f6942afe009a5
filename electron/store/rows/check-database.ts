/** Whether a database file is sound: its pages, its schema, its references and every row. */

import type Database from 'better-sqlite3';
import { atOnce, type Steps } from '../backups/steps.ts';
import { expectedSchema, schemaText } from '../schema/migrations.ts';
import { type Cell, columnsOf, TABLES, type Table } from './columns.ts';
import { checksumOf } from './row-table.ts';

/** In words, for the log and the notice; empty where nothing is wrong. */
export interface Soundness {
  /** Why nothing in the file can be relied on. */
  readonly ofFile: readonly string[];
  /** What is wrong with single rows: what they held is set aside or says so, and all else can be worked with. */
  readonly ofRows: readonly string[];
}

/** `full` adds the slow comparison of every index with its table; `byTable` leaves out pages that belong to no table. */
export type Depth = 'full' | 'quick' | 'byTable';

/**
 * Throws what SQLite throws on unreadable pages. Linear in the size of the file; 1,000 headers of 32 pieces and 32 steps
 * each (35 MB) take about 0.2 s.
 */
export function checkDatabase(db: Database.Database, depth: Depth): Soundness {
  return atOnce(checkInSteps(db, depth));
}

/** As checkDatabase, stopping for breath now and then. */
export function* checkInSteps(db: Database.Database, depth: Depth): Steps<Soundness> {
  for (const pragma of pagePragmas(db, depth)) {
    const ofFile = pageFindings(db, pragma);
    if (ofFile.length > 0) return { ofFile, ofRows: [] };
    yield;
  }
  // Without its triggers a database no longer protects what is finished; with foreign ones it does who knows what.
  if (schemaText(db) !== expectedSchema())
    return { ofFile: ['the tables, indexes or triggers are not those of this version'], ofRows: [] };
  const ofRows = lostRows(db);
  for (const table of TABLES) {
    const orphans = db.pragma(`foreign_key_check(${table})`) as readonly unknown[];
    if (orphans.length > 0) ofRows.push(`rows of ${table} belong to no ${OWNERS[table] ?? 'header'}`);
    const { bad, count } = yield* badRows(db, table);
    if (bad > 0) ofRows.push(`${table}: ${bad} of ${count} rows do not match their checksum`);
  }
  return { ofFile: [], ofRows };
}

/** What rows point at, where it is not a header. */
const OWNERS: { readonly [Name in Table]?: string } = {
  stock: 'step of the stock book',
  movements: 'row of the shelf',
  picture_bytes: 'picture',
};

function pagePragmas(db: Database.Database, depth: Depth): readonly string[] {
  if (depth !== 'byTable') return [depth === 'full' ? 'integrity_check' : 'quick_check'];
  const tables = db.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all();
  // A file that is not ours may have tables of any name.
  return tables.map((table) => `quick_check("${table.replaceAll('"', '""')}")`);
}

/** A value that its table does not allow is left to the row's checksum, which tells as much. */
function pageFindings(db: Database.Database, pragma: string): readonly string[] {
  const lines = (db.pragma(pragma) as readonly object[]).map((row) => String(Object.values(row)[0]));
  return lines.filter((line) => line !== 'ok' && !BAD_VALUE.test(line));
}

/** SQLite's words. */
const BAD_VALUE = /^(?:CHECK constraint failed in|NULL value in|non-\w+ value in) \w+/;

/**
 * Rows that are gone without a trace of their own. The places in the journal and in the stock book have no gaps, and each snapshot is of a row
 * of it. What nothing tells of is the loss of the very last rows before there is a snapshot of them.
 */
function lostRows(db: Database.Database): string[] {
  const count = (sql: string) => db.prepare<[], number>(sql).pluck().get() ?? 0;
  const gapsIn = (table: Table) => count(`SELECT coalesce(max(place), 0) - count(*) FROM ${table}`);
  const gaps = gapsIn('journal');
  const shelfGaps = gapsIn('shelf_steps') + gapsIn('movements') + gapsIn('stock');
  const ends = count(`SELECT count(*) FROM snapshots AS s WHERE NOT EXISTS
    (SELECT 1 FROM journal WHERE header_id = s.header_id AND revision = s.revision AND checksum = s.chain)`);
  return [
    ...(gaps === 0 ? [] : [`steps missing from the journal: ${gaps}`]),
    ...(shelfGaps === 0 ? [] : [`rows missing from the stock book: ${shelfGaps}`]),
    ...(ends === 0 ? [] : [`snapshots of steps that are missing: ${ends}`]),
  ];
}

/** Rows between two places where a check can be interrupted: about a millisecond's work. */
const ROWS_A_STEP = 64;

function* badRows(db: Database.Database, table: Table): Steps<{ readonly bad: number; readonly count: number }> {
  // The checksum comes last; raw rows are arrays, which are cheaper than objects.
  const rows = db.prepare(`SELECT ${columnsOf(table).join(', ')}, checksum FROM ${table}`).raw();
  let [bad, count] = [0, 0];
  for (const row of rows.iterate() as IterableIterator<Cell[]>) {
    if (row.pop() !== checksumOf(table, row)) bad += 1;
    count += 1;
    if (count % ROWS_A_STEP === 0) yield;
  }
  return { bad, count };
}

/** What the user should know of damaged rows; none where there are none. */
export function damageNotices(ofRows: readonly string[]): readonly string[] {
  if (ofRows.length === 0) return [];
  return [
    `Part of what is kept is damaged (${ofRows.join('; ')}). A header that is damaged says so when it is opened; of the shelf and the preferences, what is damaged is left out. All else is as it was. A backup may hold it whole.`,
  ];
}

/** Changes whenever the user's headers, pictures or shelf do: whatever changes a header is a row of the journal, and of the shelf a step of the stock book. */
export function contentMark(db: Database.Database): string {
  const sql = `SELECT json_array((SELECT checksum FROM journal ORDER BY place DESC LIMIT 1),
    (SELECT json_array(count(*), total(checksum)) FROM bin), (SELECT checksum FROM shelf_steps ORDER BY place DESC LIMIT 1),
    (SELECT json_array(count(*), total(checksum)) FROM pictures))`;
  return db.prepare<[], string>(sql).pluck().get() ?? '';
}
