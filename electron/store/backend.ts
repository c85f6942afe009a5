/** The program's back half as both hosts use it: every call of the bridge, answered from one data folder. */

import { join } from 'node:path';
import { newId, success } from '../../core/index.ts';
import { createDispatcher, type Dispatcher, type Handlers, type ReportDefect } from '../bridge/dispatcher.ts';
import { fileLog, wordsOf } from '../output/file-log.ts';
import { previewApart } from '../output/preview-apart.ts';
import { type BackupHours, backupHours, systemTimers, type Timers } from './backups/backup-hours.ts';
import type { CallContext, Host } from './calls/call-context.ts';
import { copyCalls } from './calls/copy-calls.ts';
import { headerCalls } from './calls/header-calls.ts';
import { shelfCalls } from './calls/shelf-calls.ts';
import { type Upkeep, upkeep } from './calls/upkeep-calls.ts';
import { createConnection } from './file/connection.ts';
import { dataFolder } from './file/data-folder.ts';
import { keepEnds } from './header/keep-header.ts';

export type { Host } from './calls/call-context.ts';

export interface BackendOptions {
  /** The data folder; made when it is missing. */
  readonly folder: string;
  readonly version: string;
  readonly host: Host;
  readonly clock: () => Date;
  /** Numbers in [0, 1); the hosts give one that is hard to foretell, tests a seeded one. */
  readonly random: () => number;
  /** How long after the first start a backup is made, if one is due; null makes none but those that are asked for. */
  readonly backupAfterMs?: number | null;
  /** What the hours between backups are counted with; tests hand in their own. */
  readonly timers?: Timers;
}

export interface Backend extends Dispatcher {
  /** Makes a backup if something was entered since the last, then closes the database. */
  close(): Promise<void>;
}

type Log = ReturnType<typeof fileLog>;

/** By then the page has shown what it needs. */
const FIRST_BACKUP_AFTER_MS = 3000;

/** Opens nothing yet: the first `start`, or any other call, does. */
export function createBackend(options: BackendOptions): Backend {
  const place = dataFolder(options.folder);
  const log = fileLog(join(place.folder, 'evenrun.log'), options.clock);
  const freshId = () => newId(options.random);
  const context: CallContext = {
    connection: createConnection(place, options.clock),
    place,
    host: options.host,
    version: options.version,
    now: () => options.clock().toISOString(),
    clock: options.clock,
    newId: freshId,
  };
  const care = upkeep(context);
  const hours = hoursOf(options, care.backUpIfChanged, (cause) => log.write({ backup: cause }));
  const handlers: Handlers = {
    ...headerCalls(context),
    ...copyCalls(context),
    ...shelfCalls(context),
    ...careCalls(care, hours, log),
    previewFile: (request) => previewApart(request, { newId: freshId }),
    ...closingCalls(options.host),
  };
  const dispatcher = createDispatcher(handlers, defectsInto(log, freshId));
  return {
    call: dispatcher.call,
    async close() {
      keepEndsOf(context.connection, log);
      await hours?.end();
      await care.idle();
      context.connection.close();
    },
  };
}

/** The page's answers to being asked to close. */
function closingCalls(host: Host): Pick<Handlers, 'readyToClose' | 'notYetSaved'> {
  return {
    readyToClose() {
      host.readyToClose();
      return success({});
    },
    notYetSaved(unsaved) {
      host.notYetSaved?.(unsaved);
      return success({});
    },
  };
}

function defectsInto(log: Log, freshId: () => string): ReportDefect {
  return (call, cause) => {
    const reference = freshId().slice(0, 8);
    log.write({ defect: reference, call, cause: wordsOf(cause) });
    return reference;
  };
}

/** The first start begins the hours of backups; one that fails is found again in the log. */
function careCalls({ calls }: Upkeep, hours: BackupHours | null, log: Log): Upkeep['calls'] {
  return {
    ...calls,
    async start(request) {
      hours?.begin();
      const started = await calls.start(request);
      if (started.ok && started.value.state === 'cannotOpen') log.write({ cannotOpen: started.value.problem });
      return started;
    },
  };
}

/** A courtesy: what a disk refuses now is only not proven at the next start. */
function keepEndsOf(connection: CallContext['connection'], log: Log): void {
  if (!connection.isWritable) return;
  const kept = connection.use(keepEnds);
  if (!kept.ok) log.write({ ends: kept.problems });
}

/** Null where backups are made only when they are asked for. */
function hoursOf(
  { backupAfterMs = FIRST_BACKUP_AFTER_MS, timers = systemTimers }: BackendOptions,
  backUp: Upkeep['backUpIfChanged'],
  report: (cause: unknown) => void,
): BackupHours | null {
  return backupAfterMs === null ? null : backupHours({ backUp, firstAfterMs: backupAfterMs, timers, report });
}
