/** The calls about long work: files that leave in pieces or come in so, and how far they are. */

import { type Problem, safeFileName, success } from '../../../core/index.ts';
import type { RequestOf } from '../../bridge/contract.ts';
import type { Answer, Handlers } from '../../bridge/dispatcher.ts';
import type { OutgoingFile } from '../../output/outgoing-file.ts';
import { backUpEverything, givenFile, removeGiven, takeInEverything } from '../backups/everything.ts';
import { expectedProblem } from '../file/faults.ts';
import { freeDatabase } from '../file/names-in-use.ts';
import { exportFinished } from '../finished/export-finished.ts';
import { headerIn } from '../header/opened-header.ts';
import type { Tables } from '../tables.ts';
import { type RunningWork, runningWork } from '../work/running-work.ts';
import type { CallContext } from './call-context.ts';

const FINISHED_ENDING = '.finished.jsonl';

export function workCalls(context: CallContext) {
  const running = runningWork(context.newId);
  return {
    beginExport: (request) => beginExport(context, running, request),
    beginBackup: () => beginBackup(context, running),
    async beginRestore({ bytes }) {
      const givenId = context.newId();
      const copy = givenFile(context.place, givenId);
      const work = takeInEverything(copy, bytes, givenId);
      return success({ workId: await running.begin({ work, about: copy, drop: () => freeDatabase(copy) }) });
    },
    continueWork: ({ workId, piece }) => running.next(workId, piece === null ? null : Buffer.from(piece, 'base64')),
    async stopWork({ workId }) {
      await running.stop(workId);
      return success({});
    },
    async endWork(): Promise<void> {
      await running.stopAll();
      // Proven files that nobody came back for among them. A disk that does not let them go keeps them till the next end.
      try {
        removeGiven(context.place);
      } catch (cause) {
        expectedProblem(cause, context.place.folder);
      }
    },
  } satisfies Partial<Handlers> & { readonly endWork: unknown };
}

/** `file` null: the page takes the pieces. Null as a whole: called off. */
async function askWhere(
  { host }: CallContext,
  fileName: string,
  mediaType: string,
): Promise<{ readonly file: OutgoingFile | null } | null> {
  return host.openFile === undefined ? { file: null } : host.openFile(fileName, mediaType);
}

async function beginExport(
  context: CallContext,
  running: RunningWork,
  { headerIds }: RequestOf<'beginExport'>,
): Promise<Answer<'beginExport'>> {
  const { connection, place } = context;
  const asked = connection.use<{ readonly name: string; readonly ids: readonly string[] }, Problem>((tables) => {
    const [only] = headerIds?.length === 1 ? headerIds : [];
    const name = only === undefined ? 'Finished headers' : (headerIn(tables, only)?.name ?? 'Finished header');
    return success({ name, ids: headerIds ?? tables.archive.ids() });
  });
  if (!asked.ok) return asked;
  // Of an empty archive there is nothing to put anywhere.
  const isEmpty = asked.value.ids.length === 0;
  const fileName = safeFileName(asked.value.name, FINISHED_ENDING);
  const where = isEmpty ? { file: null } : await askWhere(context, fileName, 'application/jsonl');
  if (where === null) return success({ workId: null });
  const { file } = where;
  const work = exportFinished(connection, asked.value.ids, file);
  const about = file?.unfinished ?? place.databaseFile;
  return success({ workId: await running.begin({ work, about, drop: () => file?.drop() }) });
}

async function beginBackup(context: CallContext, running: RunningWork): Promise<Answer<'beginExport'>> {
  const { connection, place, clock, newId } = context;
  const db = connection.use<Tables['db'], Problem>((tables) => success(tables.db));
  if (!db.ok) return db;
  const where = await askWhere(
    context,
    `evenrun-${clock().toISOString().slice(0, 10)}.sqlite`,
    'application/vnd.sqlite3',
  );
  if (where === null) return success({ workId: null });
  const { file } = where;
  const copy = file?.unfinished ?? givenFile(place, newId());
  const work = backUpEverything(db.value, copy, file);
  return success({ workId: await running.begin({ work, about: copy, drop: () => freeDatabase(copy) }) });
}
