/** All tables of one open database, with their statements prepared once. */

import type Database from 'better-sqlite3';
import { archiveTable } from './archive/archive.ts';
import { type InTransaction, transactionsOn } from './file/transaction.ts';
import { headerList } from './header/header-list.ts';
import { journalTable } from './header/journal.ts';
import { snapshotTable } from './header/snapshots.ts';
import { type RecentStandings, recentStandings } from './header/standing.ts';
import { requestTable } from './request-table.ts';
import { stockTable } from './shelf/stock-table.ts';
import { binTable, draftTable, preferencesTable } from './small-tables.ts';

export interface Tables {
  readonly db: Database.Database;
  readonly inTransaction: InTransaction;
  readonly headers: ReturnType<typeof headerList>;
  readonly journal: ReturnType<typeof journalTable>;
  readonly snapshots: ReturnType<typeof snapshotTable>;
  /** The headers written to last. */
  readonly standings: RecentStandings;
  readonly archive: ReturnType<typeof archiveTable>;
  readonly stock: ReturnType<typeof stockTable>;
  readonly bin: ReturnType<typeof binTable>;
  readonly drafts: ReturnType<typeof draftTable>;
  readonly preferences: ReturnType<typeof preferencesTable>;
  readonly requests: ReturnType<typeof requestTable>;
}

export function openTables(db: Database.Database): Tables {
  return {
    db,
    inTransaction: transactionsOn(db),
    headers: headerList(db),
    journal: journalTable(db),
    snapshots: snapshotTable(db),
    standings: recentStandings(),
    archive: archiveTable(db),
    stock: stockTable(db),
    bin: binTable(db),
    drafts: draftTable(db),
    preferences: preferencesTable(db),
    requests: requestTable(db),
  };
}
