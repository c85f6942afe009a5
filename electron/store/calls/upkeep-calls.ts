/** The calls about the database itself: starting, preferences, backups and what to do when it cannot be opened. */

import { join } from 'node:path';
import Database from 'better-sqlite3';
import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { Handlers, ReadOnly } from '../../bridge/dispatcher.ts';
import { type Backup, copyChecks, kindForNow, listBackups, makeBackup } from '../backups/backups.ts';
import { restoreBackup } from '../backups/restore-backup.ts';
import { betweenCalls } from '../backups/steps.ts';
import { storageProblemOf } from '../file/faults.ts';
import { setReaderPragmas } from '../file/pragmas.ts';
import { rowChecks } from '../rows/checksums.ts';
import type { CallContext } from './call-context.ts';

type UpkeepCalls = Pick<Handlers, 'start' | 'savePreferences' | 'listBackups' | 'makeBackup' | 'restoreBackup'>;
type Started = ReadOnly<ResponseOf<'start'>>;

export interface Upkeep {
  readonly calls: UpkeepCalls;
  /** Backs up what was entered since the newest backup, if anything was. */
  backUpIfChanged(): Promise<Result<null, Problem>>;
  /** Settles when no backup is being made or restored. */
  idle(): Promise<unknown>;
}

export function upkeep(context: CallContext): Upkeep {
  const { connection, place } = context;
  let lastTask: Promise<unknown> = Promise.resolve();
  /** One at a time: a backup must not be read while it is written, nor the database replaced under it. */
  function inTurn<Value>(task: () => Promise<Value> | Value): Promise<Value> {
    const mine = lastTask.then(task);
    lastTask = mine.catch(() => null);
    return mine;
  }
  return {
    calls: {
      start: () => success(started(context)),
      savePreferences: ({ preferences }) =>
        connection.read((tables) => {
          tables.preferences.save(preferences);
          return {};
        }),
      listBackups: () => success({ backups: listBackups(place).map(shownBackup) }),
      makeBackup: () => inTurn(() => backUp(context)),
      restoreBackup: ({ name }) => inTurn(() => restore(context, name)),
    },
    backUpIfChanged: () => inTurn(() => backUpIfChanged(context)),
    idle: () => lastTask,
  };
}

function started({ connection, place, version }: CallContext): Started {
  const opened = connection.open();
  const common = { version, dataFolder: place.folder };
  if (!opened.ok) {
    const [problem] = opened.problems;
    return {
      state: 'cannotOpen',
      ...common,
      problem: problem as Problem,
      backups: listBackups(place).map(shownBackup),
    };
  }
  const read = connection.read((tables) => tables.preferences.read());
  if (read.ok) return { state: 'ready', ...common, ...read.value, notices: opened.value.notices };
  const [problem] = read.problems;
  return { state: 'cannotOpen', ...common, problem: problem as Problem, backups: listBackups(place).map(shownBackup) };
}

async function backUp(context: CallContext): Promise<Result<ResponseOf<'makeBackup'>, Problem>> {
  const { connection, place, clock } = context;
  const db = connection.read((tables) => tables.db);
  if (!db.ok) return db;
  try {
    const now = clock();
    return success(shownBackup(await makeBackup(db.value, place, { kind: kindForNow(place, now), now })));
  } catch (cause) {
    const problem = storageProblemOf(cause, place.backupsFolder);
    if (problem === null) throw cause;
    return failure(problem);
  }
}

async function backUpIfChanged(context: CallContext): Promise<Result<null, Problem>> {
  const present = await presentFingerprint(context);
  if (!present.ok) return present;
  if ((await newestFingerprint(context)) === present.value) return success(null);
  const made = await backUp(context);
  return made.ok ? success(null) : made;
}

/** Over a connection of its own: a read that lasts while edits come in must not stand in their way. */
async function presentFingerprint({ connection, place }: CallContext): Promise<Result<string, Problem>> {
  const opened = connection.open();
  if (!opened.ok) return opened;
  const reader = new Database(place.databaseFile, { readonly: true });
  try {
    setReaderPragmas(reader);
    reader.exec('BEGIN');
    return success((await betweenCalls(rowChecks(reader))).fingerprint);
  } catch (cause) {
    const problem = storageProblemOf(cause, place.databaseFile);
    if (problem === null) throw cause;
    return failure(problem);
  } finally {
    reader.close();
  }
}

/** Null: there is no backup, or the newest is not sound, so another is due. */
async function newestFingerprint({ place }: CallContext): Promise<string | null> {
  const newest = listBackups(place).find((backup) => backup.kind !== 'setAside');
  if (!newest) return null;
  try {
    return await betweenCalls(copyChecks(join(place.backupsFolder, newest.name)));
  } catch (cause) {
    if (storageProblemOf(cause, newest.name) === null) throw cause;
    return null;
  }
}

function restore(context: CallContext, name: string): Result<Started, Problem> {
  const { connection, place, clock } = context;
  const wasOpen = connection.isOpen;
  connection.close();
  const restored = restoreBackup(place, { name, now: clock(), wasOpen });
  // Whatever came of it, the program goes on with the database that is now in place.
  const now = started(context);
  return restored.ok ? success(now) : restored;
}

function shownBackup({ name, kind, takenAt, bytes }: Backup): ResponseOf<'makeBackup'> {
  return { name, kind, takenAt, bytes };
}
