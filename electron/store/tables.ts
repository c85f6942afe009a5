/** All tables of one open database, with their statements prepared once. */

import type Database from 'better-sqlite3';
import { archiveTable } from './archive/archive.ts';
import { cutPlanTable } from './cut-plans/plan-table.ts';
import { transactionsOn } from './file/transaction.ts';
import { draftTable } from './header/drafts.ts';
import { headerList } from './header/header-list.ts';
import { journalTable } from './header/journal.ts';
import { snapshotTable } from './header/snapshots.ts';
import { recentStandings } from './header/standing.ts';
import { pictureTable } from './pictures/picture-table.ts';
import { requestTable } from './request-table.ts';
import { settingsTable } from './settings-table.ts';
import { shelf } from './shelf/shelf.ts';
import { tubeLeft } from './shelf/tube-left.ts';

export type Tables = ReturnType<typeof tablesOf> & { readonly db: Database.Database };

export function openTables(db: Database.Database): Tables {
  return { db, ...tablesOf(db) };
}

function tablesOf(db: Database.Database) {
  return {
    inTransaction: transactionsOn(db),
    headers: headerList(db),
    journal: journalTable(db),
    snapshots: snapshotTable(db),
    /** The headers written to last. */
    standings: recentStandings(),
    archive: archiveTable(db),
    shelf: shelf(db),
    tubeLeft: tubeLeft(db),
    cutPlans: cutPlanTable(db),
    pictures: pictureTable(db),
    drafts: draftTable(db),
    settings: settingsTable(db),
    requests: requestTable(db),
  };
}
