/** The calls about headers in the database: lists, opening, steps, drafts, the bin and the archive. */

import { type Problem, success } from '../../../core/index.ts';
import type { Handlers } from '../../bridge/dispatcher.ts';
import { commitSteps } from '../header/commit-steps.ts';
import { headerIn, historyAsked, notFound, openedHeader } from '../header/opened-header.ts';
import type { Tables } from '../tables.ts';
import type { CallContext } from './call-context.ts';

export function headerCalls({ connection, clock }: CallContext) {
  /** Does something for a header that is there, in a transaction. */
  const onHeader = (headerId: string, act: (tables: Tables) => unknown) =>
    connection.use((tables) =>
      tables.inTransaction<Record<never, never>, Problem>(() => {
        if (!tables.journal.newest(headerId)) return notFound(headerId);
        act(tables);
        return success({});
      }),
    );
  return {
    listHeaders: ({ place }) => connection.read(({ headers }) => ({ headers: headers.list(place) })),
    lookAtHeaders: ({ headerIds }) =>
      connection.read((tables) => ({
        headers: headerIds.map((headerId) => headerIn(tables, headerId)).filter((header) => header !== null),
      })),
    openHeader: ({ headerId }) =>
      connection.use((tables) => {
        const opened = tables.inTransaction(() => openedHeader(tables, headerId), 'DEFERRED');
        // A courtesy: a disk that has no room for it does not keep a header from being opened.
        if (opened.ok) connection.use(({ settings }) => success(settings.rememberHeader(headerId)));
        return opened;
      }),
    readHistory: (request) =>
      connection.use((tables) => tables.inTransaction(() => historyAsked(tables, request), 'DEFERRED')),
    readRevision: ({ headerId }) =>
      connection.use(({ journal }) => {
        const newest = journal.newest(headerId);
        return newest ? success({ revision: newest.revision, state: newest.state }) : notFound(headerId);
      }),
    commitSteps: (request) => connection.use((tables) => commitSteps(tables, request, clock())),
    saveDraft: ({ headerId, draft }) => onHeader(headerId, ({ drafts }) => drafts.save(headerId, draft)),
    binHeader: ({ headerId }) => onHeader(headerId, ({ headers }) => headers.bin(headerId, clock().toISOString())),
    restoreHeader: ({ headerId }) => onHeader(headerId, ({ headers }) => headers.takeOut(headerId)),
    searchArchive: (request) =>
      connection.read((tables) => tables.archive.search(request, (headerId) => headerIn(tables, headerId))),
    readShopFigures: () =>
      connection.read(({ archive, tubeLeft }) => ({ finished: archive.finished(), tubeLeft: tubeLeft() })),
  } satisfies Partial<Handlers>;
}
