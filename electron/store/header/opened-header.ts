/** A header as the page opens it, and how a new one gets into the database. */

import { failure, type Header, type Problem, type Result, success } from '../../../core/index.ts';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import type { Tables } from '../tables.ts';
import type { StoredHeader } from './header-table.ts';

type OpenedHeader = ReadOnly<ResponseOf<'openHeader'>>;

/** Stores a header that is new to the database, and opens it. */
export function keepHeader(tables: Tables, header: Header, changedAt: Date): Result<OpenedHeader, Problem> {
  return tables.inTransaction<OpenedHeader, Problem>(() => {
    tables.standings.clear();
    tables.headers.insert(header, changedAt);
    tables.journal.keepBase(header);
    tables.preferences.rememberHeader(header.id);
    return openedHeader(tables, header.id);
  });
}

/** The header as the page gets it: with all that can be undone and redone, and what was typed but not accepted. */
export function openedHeader(tables: Tables, headerId: string): Result<OpenedHeader, Problem> {
  const stored = tables.headers.read(headerId);
  if (!stored) return notFound(headerId);
  const { header, revision } = stored;
  // A finished header has no way back: work goes on in a copy.
  const history = header.state === 'finished' ? { undo: [], redo: [] } : tables.journal.history(headerId);
  return success({ header, revision, ...history, draft: tables.drafts.find(headerId) });
}

/** A header outside of any other transaction: its rows must fit each other. */
export function readWhole(tables: Tables, headerId: string): Result<StoredHeader, Problem> {
  return tables.inTransaction<StoredHeader, Problem>(() => {
    const stored = tables.headers.read(headerId);
    return stored ? success(stored) : notFound(headerId);
  }, 'DEFERRED');
}

export function notFound(id: string) {
  return failure<Problem>({ kind: 'notFound', what: 'header', id });
}
