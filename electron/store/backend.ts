/** The program's back half as both hosts use it: every call of the bridge, answered from one data folder. */

import { join } from 'node:path';
import { newId, success } from '../../core/index.ts';
import { createDispatcher, type Dispatcher, type Handlers } from '../bridge/dispatcher.ts';
import { fileLog, wordsOf } from '../output/file-log.ts';
import { previewApart } from '../output/preview-apart.ts';
import type { CallContext, Host } from './calls/call-context.ts';
import { copyCalls } from './calls/copy-calls.ts';
import { headerCalls } from './calls/header-calls.ts';
import { shelfCalls } from './calls/shelf-calls.ts';
import { type Upkeep, upkeep } from './calls/upkeep-calls.ts';
import { createConnection } from './file/connection.ts';
import { dataFolder } from './file/data-folder.ts';

export type { Host } from './calls/call-context.ts';

export interface BackendOptions {
  /** The data folder; made when it is missing. */
  readonly folder: string;
  readonly version: string;
  readonly host: Host;
  readonly clock: () => Date;
  /** Numbers in [0, 1); the hosts give one that is hard to foretell, tests a seeded one. */
  readonly random: () => number;
  /** How long after the first start the backup of the day is made; it must not stand in the way of starting. */
  readonly backupAfterMs?: number;
}

export interface Backend extends Dispatcher {
  /** Waits for a backup that is being made, then closes the database. */
  close(): Promise<void>;
}

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
  const later = laterBackup(care, {
    afterMs: options.backupAfterMs ?? 3000,
    report: (cause) => log.write({ backup: cause }),
  });
  const handlers: Handlers = {
    ...headerCalls(context),
    ...copyCalls(context),
    ...shelfCalls(context),
    ...care.calls,
    async start(request) {
      later.schedule();
      const started = await care.calls.start(request);
      if (started.ok && started.value.state === 'cannotOpen') log.write({ cannotOpen: started.value.problem });
      return started;
    },
    previewFile: (request) => previewApart(request, { newId: freshId }),
    readyToClose() {
      options.host.readyToClose();
      return success({});
    },
  };
  const dispatcher = createDispatcher(handlers, (call, cause) => {
    const reference = freshId().slice(0, 8);
    log.write({ defect: reference, call, cause: wordsOf(cause) });
    return reference;
  });
  return {
    call: dispatcher.call,
    async close() {
      later.cancel();
      await care.idle();
      context.connection.close();
    },
  };
}

/** The rotating backup of a start, made once, when the page has had time to show what it needs. */
function laterBackup(care: Upkeep, { afterMs, report }: { afterMs: number; report: (cause: unknown) => void }) {
  let timer: NodeJS.Timeout | null = null;
  const run = async () => {
    try {
      const result = await care.backUpIfChanged();
      if (!result.ok) report(result.problems);
    } catch (cause) {
      report(wordsOf(cause));
    }
  };
  return {
    schedule() {
      timer ??= setTimeout(() => void run(), afterMs).unref();
    },
    cancel() {
      if (timer) clearTimeout(timer);
    },
  };
}
