/** A header as the page opens it, and how a new one gets into the database. */

import type { Header } from '../../core/header/header.ts';
import type { Problem } from '../../core/problem.ts';
import { failure, type Result, success } from '../../core/result.ts';
import type { ResponseOf } from '../bridge/contract.ts';
import type { ReadOnly } from '../bridge/dispatcher.ts';
import { documentOf } from './header-table.ts';
import type { Tables } from './tables.ts';
import { inTransaction } from './transaction.ts';

type OpenedHeader = ReadOnly<ResponseOf<'openHeader'>>;

/** Stores a header that is new to the database, and opens it. */
export function keepHeader(tables: Tables, header: Header, changedAt: string): Result<OpenedHeader, Problem> {
  return inTransaction<OpenedHeader, Problem>(tables.db, () => {
    const touched = tables.headers.touchedNow(null);
    tables.headers.insert(tables.headers.rowOf(header, { revision: 0, changedAt, touched }));
    tables.journal.keepBase(header);
    tables.preferences.rememberHeader(header.id);
    return openedHeader(tables, header.id);
  });
}

/** The header as the page gets it: with all that can be undone and redone, and what was typed but not accepted. */
export function openedHeader(tables: Tables, headerId: string): Result<OpenedHeader, Problem> {
  const row = tables.headers.find(headerId);
  if (!row) return notFound(headerId);
  const header = documentOf(row);
  // A finished header has no way back: work goes on in a copy.
  const history = row.state === 'finished' ? { undo: [], redo: [] } : tables.journal.history(headerId);
  return success({ header, revision: row.revision, ...history, draft: tables.drafts.find(headerId) });
}

export function notFound(id: string) {
  return failure<Problem>({ kind: 'notFound', what: 'header', id });
}
