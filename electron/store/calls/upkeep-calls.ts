/** The calls about the database itself: starting, preferences, backups and what to do when it cannot be opened. */

import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { Handlers, ReadOnly } from '../../bridge/dispatcher.ts';
import { backUp, backUpIfChanged } from '../backups/back-up.ts';
import { type Backup, listBackups } from '../backups/backups.ts';
import { restoreBackup } from '../backups/restore-backup.ts';
import type { DataFolder } from '../file/data-folder.ts';
import { storageProblemOf } from '../file/faults.ts';
import type { CallContext } from './call-context.ts';

type UpkeepCalls = Pick<Handlers, 'start' | 'savePreferences' | 'listBackups' | 'makeBackup' | 'restoreBackup'>;
type Started = ReadOnly<ResponseOf<'start'>>;
type ShownBackup = ResponseOf<'makeBackup'>;

export interface Upkeep {
  readonly calls: UpkeepCalls;
  /** Backs up what was entered since the newest backup, if anything was. */
  backUpIfChanged(): Promise<Result<unknown, Problem>>;
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
        connection.use((tables) => {
          tables.preferences.save(preferences);
          return success({});
        }),
      listBackups: () => {
        const shown = shownBackups(place);
        return shown.ok ? success({ backups: shown.value }) : shown;
      },
      makeBackup: () =>
        inTurn(async () => {
          const made = await backUp(context);
          return made.ok ? success(shownBackup(made.value)) : made;
        }),
      restoreBackup: ({ name }) => inTurn(() => restore(context, name)),
    },
    backUpIfChanged: () => inTurn(() => backUpIfChanged(context)),
    idle: () => lastTask,
  };
}

function started(context: CallContext): Started {
  const { connection, place, version } = context;
  const opened = connection.open();
  if (!opened.ok) return cannotOpen(context, opened.problems);
  const read = connection.read((tables) => tables.preferences.read());
  if (!read.ok) return cannotOpen(context, read.problems);
  const { notices, cannotWrite } = opened.value;
  return { state: 'ready', version, dataFolder: place.folder, ...read.value, notices, cannotWrite };
}

function cannotOpen({ place, version }: CallContext, problems: readonly Problem[]): Started {
  const shown = shownBackups(place);
  const [problem] = problems;
  return {
    state: 'cannotOpen',
    version,
    dataFolder: place.folder,
    problem: problem as Problem,
    // Where they cannot be read either, what keeps the database from being opened is what must be put right first.
    backups: shown.ok ? shown.value : [],
  };
}

function restore(context: CallContext, name: string): Result<Started, Problem> {
  const { connection, place, clock } = context;
  const wasOpen = connection.isWritable;
  connection.close();
  const restored = restoreBackup(place, { name, now: clock(), wasOpen });
  // Whatever came of it, the program goes on with the database that is now in place.
  const now = started(context);
  return restored.ok ? success(now) : restored;
}

function shownBackups(place: DataFolder): Result<ShownBackup[], Problem> {
  try {
    return success(listBackups(place).map(shownBackup));
  } catch (cause) {
    const problem = storageProblemOf(cause, place.backupsFolder);
    if (problem === null) throw cause;
    return failure(problem);
  }
}

function shownBackup({ name, kind, takenAt, bytes }: Backup): ShownBackup {
  return { name, kind, takenAt, bytes };
}
