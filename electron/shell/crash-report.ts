/** What happens when a defect gets past everything: it is written down, the user is told, and the program ends. */

import { join } from 'node:path';
import { app, dialog } from 'electron';
import { type FileLog, fileLog, wordsOf } from '../output/file-log.ts';

const LOG_NAME = 'crashes.log';

/** Where crashes of the program and of its page are written down. */
export function crashLog(folder: string): FileLog {
  return fileLog(join(folder, LOG_NAME), () => new Date());
}

/** Must run first, so that nothing goes wrong unseen. Ends the program: after a defect its state cannot be trusted. */
export function reportCrashes(folder: string): void {
  const log = crashLog(folder);
  let isEnding = false;
  const end = (cause: unknown): void => {
    if (isEnding) return;
    isEnding = true;
    log.write({ crash: wordsOf(cause), version: app.getVersion() });
    dialog.showErrorBox(
      'Evenrun has met a fault of its own and must close',
      `Every entry marked as saved is safe. Start the program again to go on.\n\nWhat happened is written to ${join(folder, LOG_NAME)}.`,
    );
    app.exit(1);
  };
  process.on('uncaughtException', end);
  process.on('unhandledRejection', end);
}
