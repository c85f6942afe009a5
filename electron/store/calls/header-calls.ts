/** The calls about headers in the database: lists, opening, steps, drafts, the bin and the archive. */

import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import type { RequestOf } from '../../bridge/contract.ts';
import type { Handlers } from '../../bridge/dispatcher.ts';
import { commitSteps } from '../header/commit-steps.ts';
import { type History, historyFrom, isTurnedBackBy } from '../header/history.ts';
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
  const onHeader = (headerId: string, act: (tables: Tables) => unknown) =>
    connection.use((tables) => doneForHeader(tables, headerId, act));
  return {
    listHeaders: ({ place }) => connection.read(({ headers }) => ({ headers: headers.list(place) })),
    openHeader: ({ headerId }) =>
      connection.use((tables) => {
        const opened = tables.inTransaction(() => openedHeader(tables, headerId), 'DEFERRED');
        // A courtesy: a disk that has no room for it does not keep a header from being opened.
        if (opened.ok) connection.use(({ preferences }) => success(preferences.rememberHeader(headerId)));
        return opened;
      }),
    readHistory: (request) => connection.use((tables) => furtherHistory(tables, request)),
    readRevision: ({ headerId }) =>
      connection.use(({ journal }) => {
        const newest = journal.newest(headerId);
        return newest ? success({ revision: newest.revision, state: newest.state }) : notFound(headerId);
      }),
    commitSteps: (request) => connection.use((tables) => commitSteps(tables, request, clock())),
    saveDraft: ({ headerId, draft }) => onHeader(headerId, ({ drafts }) => drafts.save(headerId, draft)),
    binHeader: ({ headerId }) => onHeader(headerId, ({ bin }) => bin.put(headerId, now())),
    restoreHeader: ({ headerId }) => onHeader(headerId, ({ bin }) => bin.takeOut(headerId)),
    searchArchive: (request) =>
      connection.read((tables) => ({
        rows: tables.archive.search(request, (headerId) => {
          const read = readWhole(tables, headerId);
          return read.ok ? read.value.header : null;
        }),
      })),
  };
}

/** Does something for a header that is there, in a transaction. */
function doneForHeader(
  tables: Tables,
  headerId: string,
  act: (tables: Tables) => unknown,
): Result<Record<never, never>, Problem> {
  return tables.inTransaction<Record<never, never>, Problem>(() => {
    if (!tables.journal.newest(headerId)) return notFound(headerId);
    act(tables);
    return success({});
  });
}

/** The steps that undo or redo comes to after the one that the page knows last. */
function furtherHistory(
  { journal, inTransaction }: Tables,
  request: RequestOf<'readHistory'>,
): Result<History, Problem> {
  const { headerId, action, from } = request;
  return inTransaction<History, Problem>(() => {
    if (!journal.newest(headerId)) return notFound(headerId);
    if (isTurnedBackBy(journal, request)) return success(historyFrom(journal, request));
    return failure({ kind: 'invalidRequest', call: 'readHistory', detail: `no ${action} of step ${from}` });
  }, 'DEFERRED');
}
