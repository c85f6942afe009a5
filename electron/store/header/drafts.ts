/** Text typed into a header and not yet accepted, offered again after a crash. */

import type Database from 'better-sqlite3';
import type { RequestOf } from '../../bridge/contract.ts';
import { isIntact, rowTable } from '../rows/row-table.ts';

type Draft = Readonly<NonNullable<RequestOf<'saveDraft'>['draft']>>;

export function draftTable(db: Database.Database) {
  const rows = rowTable(db, 'drafts', ['header_id']);
  return {
    save: (headerId: string, draft: Draft | null): unknown =>
      draft === null ? rows.remove(headerId) : rows.put({ header_id: headerId, ...draft }),
    /** One that is damaged is not offered: half-typed text is not worth a header that does not open. */
    find(headerId: string): Draft | null {
      const row = rows.find(headerId);
      return row && isIntact('drafts', row) ? { field: row.field, text: row.text } : null;
    },
  };
}
