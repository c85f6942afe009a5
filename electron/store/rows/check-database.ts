/** Whether a database file is sound: its pages, its references and every row. */

import type Database from 'better-sqlite3';
import { atOnce, type Steps } from '../backups/steps.ts';
import { expectedSchema } from '../schema/expected-schema.ts';
import { schemaText } from '../schema/migrations.ts';
import { isOfOneHeader, rowChecks } from './checksums.ts';

export interface Soundness {
  /** What is wrong, in words for the log and the report; empty when the file is sound. */
  readonly findings: readonly string[];
  /** What is wrong with single headers, which say so when they are opened; all else can be worked with. */
  readonly ofHeaders: readonly string[];
  /** Changes whenever anything that the user entered does. Empty when the rows could not be read. */
  readonly fingerprint: string;
}

/**
 * `full` adds the slow comparison of every index with its table. Throws what SQLite throws on unreadable pages.
 * Linear in the size of the file; 1,000 headers of 32 pieces and 32 steps each (35 MB) take about 0.2 s.
 */
export function checkDatabase(db: Database.Database, full: boolean): Soundness {
  const found = pageFindings(db, full ? 'integrity_check' : 'quick_check');
  return found.length > 0 ? { findings: found, ofHeaders: [], fingerprint: '' } : atOnce(contentChecks(db));
}

/** As the quick check, table by table and between other work; pages that belong to no table are not looked at. */
export function* checkInSteps(db: Database.Database): Steps<Soundness> {
  for (const table of tablesOf(db)) {
    const found = pageFindings(db, `quick_check(${table})`);
    if (found.length > 0) return { findings: found, ofHeaders: [], fingerprint: '' };
    yield;
  }
  return yield* contentChecks(db);
}

function tablesOf(db: Database.Database): readonly string[] {
  return db.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all();
}

function pageFindings(db: Database.Database, pragma: string): readonly string[] {
  const pages = db.pragma(pragma) as readonly Record<string, unknown>[];
  const lines = pages.map((row) => String(Object.values(row)[0]));
  return lines.filter((line) => line !== 'ok' && !isOfOneHeader(BAD_VALUE.exec(line)?.[1] ?? ''));
}

/** SQLite's words for a row with a value that its table does not allow: its checksum tells as much. */
const BAD_VALUE = /^(?:CHECK constraint failed in|NULL value in|non-\w+ value in) (\w+)/;

function* contentChecks(db: Database.Database): Steps<Soundness> {
  // Without its triggers a database no longer protects what is finished; with foreign ones it does who knows what.
  if (schemaText(db) !== expectedSchema()) {
    const foreign = 'the tables, indexes or triggers are not those of this version';
    return { findings: [foreign], ofHeaders: [], fingerprint: '' };
  }
  yield;
  const findings: string[] = [];
  const ofHeaders: string[] = [];
  for (const table of tablesOf(db)) {
    const orphans = db.pragma(`foreign_key_check(${table})`) as readonly unknown[];
    if (orphans.length > 0) (isOfOneHeader(table) ? ofHeaders : findings).push(`rows of ${table} belong to no header`);
    yield;
  }
  const rows = yield* rowChecks(db);
  findings.push(...rows.damaged);
  ofHeaders.push(...rows.ofHeaders);
  return { findings, ofHeaders, fingerprint: rows.fingerprint };
}

/** What the user should know of damage to single headers; none where there is none. */
export function damageNotices(ofHeaders: readonly string[]): readonly string[] {
  if (ofHeaders.length === 0) return [];
  return [
    `Something kept of single headers is damaged (${ofHeaders.join('; ')}). A header that it concerns says so when it is opened; all others are as they were. A backup may hold it whole.`,
  ];
}
