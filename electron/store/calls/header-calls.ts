/** The calls about headers in the database: lists, opening, steps, drafts, the bin and the archive. */

import { demoHeader, newHeader, type Problem, success } from '../../../core/index.ts';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { Handlers } from '../../bridge/dispatcher.ts';
import { commitSteps } from '../header/commit-steps.ts';
import type { HeaderListRow } from '../header/header-table.ts';
import { keepHeader, notFound, openedHeader } from '../header/opened-header.ts';
import type { Tables } from '../tables.ts';
import type { CallContext } from './call-context.ts';

type HeaderCalls = Pick<
  Handlers,
  | 'listHeaders'
  | 'createHeader'
  | 'openHeader'
  | 'readRevision'
  | 'commitSteps'
  | 'saveDraft'
  | 'binHeader'
  | 'restoreHeader'
  | 'searchArchive'
>;

export function headerCalls({ connection, clock, now, newId }: CallContext): HeaderCalls {
  /** Runs on a header that is there, in a transaction. */
  const onHeader = <Value>(headerId: string, act: (tables: Tables) => Value) =>
    connection.use((tables) =>
      tables.inTransaction<Value, Problem>(() =>
        tables.headers.stamp(headerId) ? success(act(tables)) : notFound(headerId),
      ),
    );
  return {
    listHeaders: ({ place }) => connection.read((tables) => ({ headers: tables.headers.list(place).map(summaryOf) })),
    createHeader: ({ name, from }) =>
      connection.use((tables) => {
        const id = newId();
        return keepHeader(tables, from === 'demo' ? { ...demoHeader(id), name } : newHeader({ id, name }), clock());
      }),
    openHeader: ({ headerId }) =>
      connection.use((tables) => {
        const opened = tables.inTransaction(() => openedHeader(tables, headerId), 'DEFERRED');
        // A courtesy: a disk that has no room for it does not keep a header from being opened.
        if (opened.ok) connection.use(({ preferences }) => success(preferences.rememberHeader(headerId)));
        return opened;
      }),
    readRevision: ({ headerId }) =>
      connection.use((tables) => {
        const stamp = tables.headers.stamp(headerId);
        return stamp ? success({ revision: stamp.revision, state: stamp.state }) : notFound(headerId);
      }),
    commitSteps: (request) => connection.use((tables) => commitSteps(tables, request, clock())),
    saveDraft: ({ headerId, draft }) => onHeader(headerId, ({ drafts }) => nothing(drafts.save(headerId, draft))),
    binHeader: ({ headerId }) => onHeader(headerId, ({ bin }) => nothing(bin.put(headerId, now()))),
    restoreHeader: ({ headerId }) => onHeader(headerId, ({ bin }) => nothing(bin.takeOut(headerId))),
    searchArchive: (request) => connection.read((tables) => ({ rows: tables.archive.search(request) })),
  };
}

function summaryOf(row: HeaderListRow): ResponseOf<'listHeaders'>['headers'][number] {
  return {
    headerId: row.id,
    name: row.name,
    state: row.state,
    revision: row.revision,
    primaryCount: row.primary_count,
    pieceCount: row.piece_count,
    changedAt: new Date(row.changed_at).toISOString(),
  };
}

/** The empty answer of a call that only does something. */
const nothing = (_done: unknown) => ({});
