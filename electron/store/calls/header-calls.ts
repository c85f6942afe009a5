/** The calls about headers in the database: lists, opening, steps, drafts, the bin and the archive. */

import { type Problem, success } from '../../../core/index.ts';
import type { Handlers } from '../../bridge/dispatcher.ts';
import { commitSteps } from '../header/commit-steps.ts';
import { historyFrom } from '../header/history.ts';
import { notFound, openedHeader, readWhole } from '../header/opened-header.ts';
import type { Tables } from '../tables.ts';
import type { CallContext } from './call-context.ts';

type HeaderCalls = Pick<
  Handlers,
  | 'listHeaders'
  | 'openHeader'
  | 'readHistory'
  | 'readRevision'
  | 'commitSteps'
  | 'saveDraft'
  | 'binHeader'
  | 'restoreHeader'
  | 'searchArchive'
>;

export function headerCalls({ connection, clock, now }: CallContext): HeaderCalls {
  /** Runs on a header that is there, in a transaction. */
  const onHeader = <Value>(headerId: string, act: (tables: Tables) => Value, kind: 'IMMEDIATE' | 'DEFERRED') =>
    connection.use((tables) =>
      tables.inTransaction<Value, Problem>(
        () => (tables.journal.newest(headerId) ? success(act(tables)) : notFound(headerId)),
        kind,
      ),
    );
  return {
    listHeaders: ({ place }) => connection.read(({ headers }) => ({ headers: headers.list(place) })),
    openHeader: ({ headerId }) =>
      connection.use((tables) => {
        const opened = tables.inTransaction(() => openedHeader(tables, headerId), 'DEFERRED');
        // A courtesy: a disk that has no room for it does not keep a header from being opened.
        if (opened.ok) connection.use(({ preferences }) => success(preferences.rememberHeader(headerId)));
        return opened;
      }),
    readHistory: (request) => onHeader(request.headerId, ({ journal }) => historyFrom(journal, request), 'DEFERRED'),
    readRevision: ({ headerId }) =>
      connection.use(({ journal }) => {
        const newest = journal.newest(headerId);
        return newest ? success({ revision: newest.revision, state: newest.state }) : notFound(headerId);
      }),
    commitSteps: (request) => connection.use((tables) => commitSteps(tables, request, clock())),
    saveDraft: ({ headerId, draft }) =>
      onHeader(headerId, ({ drafts }) => nothing(drafts.save(headerId, draft)), 'IMMEDIATE'),
    binHeader: ({ headerId }) => onHeader(headerId, ({ bin }) => nothing(bin.put(headerId, now())), 'IMMEDIATE'),
    restoreHeader: ({ headerId }) => onHeader(headerId, ({ bin }) => nothing(bin.takeOut(headerId)), 'IMMEDIATE'),
    searchArchive: (request) =>
      connection.read((tables) => ({
        rows: tables.archive.search(request, (headerId) => {
          const read = readWhole(tables, headerId);
          return read.ok ? read.value.header : null;
        }),
      })),
  };
}

/** The empty answer of a call that only does something. */
const nothing = (_done: unknown) => ({});
