/** The calls about the database itself: starting, preferences, backups and what to do when it cannot be opened. */

import { existsSync } from 'node:fs';
import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { Handlers, ReadOnly } from '../../bridge/dispatcher.ts';
import { backupHours } from '../backups/backup-hours.ts';
import { type Backup, listBackups } from '../backups/backups.ts';
import { givenFile } from '../backups/everything.ts';
import { backUp, newestMark } from '../backups/make-backup.ts';
import { restoreBackup, restoreFile } from '../backups/restore-backup.ts';
import type { DataFolder } from '../file/data-folder.ts';
import { expectedProblem } from '../file/faults.ts';
import { freeDatabase } from '../file/names-in-use.ts';
import { contentMark } from '../rows/check-database.ts';
import type { Tables } from '../tables.ts';
import type { CallContext } from './call-context.ts';

type Started = ReadOnly<ResponseOf<'start'>>;

/** One at a time: a backup must not be read while it is written, nor the database replaced under it. */
type InTurn = <Value>(task: () => Promise<Value> | Value) => Promise<Value>;

/** The first start begins the hours of backups; one that fails is found again in the log. */
export function upkeep(
  context: CallContext,
  hoursAre: Pick<Parameters<typeof backupHours>[0], 'firstAfterMs' | 'timers'>,
) {
  const { connection, place, log } = context;
  let lastTask: Promise<unknown> = Promise.resolve();
  const inTurn: InTurn = (task) => {
    const mine = lastTask.then(task);
    lastTask = mine.catch(() => null);
    return mine;
  };
  const report = (cause: unknown) => log.write({ backup: cause });
  const hours = backupHours({ ...hoursAre, backUp: () => inTurn(() => backUpIfChanged(context)), report });
  return {
    start() {
      hours.begin();
      const now = started(context);
      if (now.state === 'cannotOpen') log.write({ cannotOpen: now.problem });
      return success(now);
    },
    savePreferences: ({ preferences }) =>
      connection.use(({ settings }) => {
        settings.savePreferences(preferences);
        return success({});
      }),
    listBackups() {
      const backups = listed(place);
      return backups.ok ? success({ backups: backups.value }) : backups;
    },
    makeBackup: () => inTurn(() => backUpOpen(context)),
    ...restoreCalls(context, inTurn),
    /** Makes the last backup, if something was entered since the one before, and waits for those under way. */
    async end(): Promise<void> {
      await hours.end();
      await lastTask;
    },
  } satisfies Partial<Handlers> & { readonly end: unknown };
}

function restoreCalls(context: CallContext, inTurn: InTurn) {
  const { place } = context;
  return {
    restoreBackup: ({ name }) => inTurn(() => restore(context, (wanted) => restoreBackup(place, { ...wanted, name }))),
    restoreGiven({ givenId }) {
      const file = givenFile(place, givenId);
      return inTurn(() => {
        // Looked for in turn: asked twice, the first has taken it.
        if (!existsSync(file)) return failure({ kind: 'workGone' });
        return restore(
          context,
          (wanted) => restoreFile(place, file, wanted),
          () => freeDatabase(file),
        );
      });
    },
    dropGiven({ givenId }) {
      freeDatabase(givenFile(place, givenId));
      return success({});
    },
  } satisfies Partial<Handlers>;
}

async function backUpOpen({ connection, place, clock }: CallContext): Promise<Result<Backup, Problem>> {
  const db = connection.use<Tables['db'], Problem>((tables) => success(tables.db));
  return db.ok ? backUp(db.value, place, clock()) : db;
}

/** Null: nothing was entered since the newest backup, or the database is not open to be written in. */
async function backUpIfChanged(context: CallContext): Promise<Result<Backup | null, Problem>> {
  const { connection, place } = context;
  if (!connection.isWritable) return success(null);
  const present = connection.read(({ db }) => contentMark(db));
  if (!present.ok) return present;
  return (await newestMark(place)) === present.value ? success(null) : backUpOpen(context);
}

function started(context: CallContext): Started {
  const { connection, place, version } = context;
  const opened = connection.open();
  if (!opened.ok) return cannotOpen(context, opened.problems);
  const read = connection.read(({ settings }) => ({
    preferences: settings.preferences(),
    lastHeaderId: settings.lastHeaderId(),
  }));
  if (!read.ok) return cannotOpen(context, read.problems);
  const { notices, cannotWrite } = opened.value;
  return { state: 'ready', version, dataFolder: place.folder, ...read.value, notices, cannotWrite };
}

/** Where the backups cannot be read either, what keeps the database from being opened is what must be put right first. */
function cannotOpen({ place, version }: CallContext, problems: readonly Problem[]): Started {
  const backups = listed(place);
  return {
    state: 'cannotOpen',
    version,
    dataFolder: place.folder,
    problem: problems[0] as Problem,
    backups: backups.ok ? backups.value : [],
  };
}

type Wanted = Parameters<typeof restoreFile>[2];

function restore(
  context: CallContext,
  put: (wanted: Wanted) => Result<Record<never, never>, Problem>,
  after: () => void = () => undefined,
): Result<Started, Problem> {
  const { connection, clock } = context;
  const wasOpen = connection.isWritable;
  connection.close();
  const restored = put({ now: clock(), wasOpen });
  if (restored.ok) after();
  // Whatever came of it, the program goes on with the database that is now in place.
  const now = started(context);
  return restored.ok ? success(now) : restored;
}

function listed(place: DataFolder): Result<readonly Backup[], Problem> {
  try {
    return success(listBackups(place));
  } catch (cause) {
    return failure(expectedProblem(cause, place.backupsFolder));
  }
}
