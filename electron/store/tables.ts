/** All tables of one open database, with their statements prepared once. */

import type Database from 'better-sqlite3';
import { type Archive, archiveTable } from './archive/archive.ts';
import { type InTransaction, transactionsOn } from './file/transaction.ts';
import { type HeaderTable, headerTable } from './header/header-table.ts';
import { type Journal, journal } from './header/journal.ts';
import { type RecentStandings, recentStandings } from './header/standings.ts';
import { type Stock, stockTable } from './shelf/stock-table.ts';
import { binTable, draftTable, preferencesTable } from './small-tables.ts';

export interface Tables {
  readonly db: Database.Database;
  readonly inTransaction: InTransaction;
  readonly headers: HeaderTable;
  readonly journal: Journal;
  readonly archive: Archive;
  readonly stock: Stock;
  readonly bin: ReturnType<typeof binTable>;
  readonly drafts: ReturnType<typeof draftTable>;
  readonly preferences: ReturnType<typeof preferencesTable>;
  /** The headers last written to, so that a step need not read them again. */
  readonly standings: RecentStandings;
}

export function openTables(db: Database.Database): Tables {
  return {
    db,
    inTransaction: transactionsOn(db),
    headers: headerTable(db),
    journal: journal(db),
    archive: archiveTable(db),
    stock: stockTable(db),
    bin: binTable(db),
    drafts: draftTable(db),
    preferences: preferencesTable(db),
    standings: recentStandings(db, 8),
  };
}
