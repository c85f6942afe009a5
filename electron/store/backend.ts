/** The program's back half as both hosts use it: every call of the bridge, answered from one data folder. */

import { join } from 'node:path';
import { newId, success } from '../../core/index.ts';
import { createDispatcher, type Dispatcher, type Handlers } from '../bridge/dispatcher.ts';
import { drawCalls } from '../output/drawing/draw-calls.ts';
import { fileLog, wordsOf } from '../output/file-log.ts';
import { previewApart } from '../output/preview-apart.ts';
import { cutPlanner } from '../solver/cut-planner.ts';
import { systemTimers, type Timers } from './backups/backup-hours.ts';
import type { CallContext, Host } from './calls/call-context.ts';
import { copyCalls } from './calls/copy-calls.ts';
import { cutPlanCalls } from './calls/cut-plan-calls.ts';
import { finishedCalls } from './calls/finished-calls.ts';
import { headerCalls } from './calls/header-calls.ts';
import { pictureCalls } from './calls/picture-calls.ts';
import { shelfCalls } from './calls/shelf-calls.ts';
import { upkeep } from './calls/upkeep-calls.ts';
import { workCalls } from './calls/work-calls.ts';
import { Connection } from './file/connection.ts';
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
  /** Opens the database before the first call asks for it. What stands in the way is told by `start`. */
  openAhead(): void;
  /** Makes a backup if something was entered since the last, then closes the database. */
  close(): Promise<void>;
}

/** By then the page has shown what it needs. */
const FIRST_BACKUP_AFTER_MS = 3000;

/** Opens nothing yet: `openAhead`, the first `start` or any other call does. */
export function createBackend(options: BackendOptions): Backend {
  const { host, version, clock, backupAfterMs: firstAfterMs = FIRST_BACKUP_AFTER_MS, timers = systemTimers } = options;
  const place = dataFolder(options.folder);
  const log = fileLog(join(place.folder, 'evenrun.log'), clock);
  const freshId = () => newId(options.random);
  const connection = new Connection(place, clock);
  const context: CallContext = { connection, place, host, version, clock, newId: freshId, log };
  const { end: endPlans, ...planCalls } = cutPlanner();
  const { endWork, ...exportCalls } = workCalls(context);
  const { end, ...upkeepCalls } = upkeep(context, { firstAfterMs, timers });
  const handlers: Handlers = {
    ...storeCalls(context),
    ...exportCalls,
    ...upkeepCalls,
    ...planCalls,
    ...drawCalls(host.saveFile),
    previewFile: (request) => previewApart(request, { newId: freshId }),
    ...closingCalls(host),
  };
  const dispatcher = createDispatcher(handlers, (call, cause) => {
    const reference = freshId().slice(0, 8);
    log.write({ defect: reference, call, cause: wordsOf(cause) });
    return reference;
  });
  return {
    call: dispatcher.call,
    openAhead: () => openIfItCan(connection),
    async close() {
      endPlans();
      await endWork();
      // A courtesy: what a disk refuses now is only not proven at the next start.
      const kept = connection.isWritable ? connection.use(keepEnds) : success(null);
      if (!kept.ok) log.write({ ends: kept.problems });
      await end();
      connection.close();
    },
  };
}

function openIfItCan(connection: Connection): void {
  try {
    connection.open();
  } catch {
    // A defect, which `start` meets as well, and reports.
  }
}

/** Those that are answered out of the database alone. */
function storeCalls(context: CallContext) {
  return {
    ...headerCalls(context),
    ...copyCalls(context),
    ...pictureCalls(context),
    ...finishedCalls(context),
    ...shelfCalls(context),
    ...cutPlanCalls(context),
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
