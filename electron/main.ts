/** Electron's main process: what is set up, in the order in which it must be. */

import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { app, session } from 'electron';
import { defaultDataFolder } from './data-folder.ts';
import { readPageFiles } from './page/page-files.ts';
import { secureRandom } from './random.ts';
import { putUpMenu } from './shell/app-menu.ts';
import { registerAppScheme, serveAppProtocol } from './shell/app-protocol.ts';
import { serveBridge } from './shell/bridge-ipc.ts';
import { closeAtQuit, createClosing } from './shell/closing.ts';
import { crashLog, reportCrashes } from './shell/crash-report.ts';
import { confineAllPages, permitCopyingOnly } from './shell/hardening.ts';
import { type IncomingFiles, listenForFiles } from './shell/incoming-files.ts';
import { readLaunchArguments } from './shell/launch-arguments.ts';
import { createMainWindow, loadPage } from './shell/main-window.ts';
import { recoverPage } from './shell/page-recovery.ts';
import { openWithDialog, saveWithDialog } from './shell/save-dialog.ts';
import { createBackend } from './store/backend.ts';

const launch = readLaunchArguments(process.argv, process.cwd());
const dataFolder =
  launch.dataFolder ?? defaultDataFolder({ platform: process.platform, env: process.env, homeFolder: homedir() });
/** The built files stand side by side: `dist/shell/main.cjs`, `dist/preload/…`, `dist/renderer/…`. */
const builtFolder = dirname(import.meta.dirname);

async function openWindow(incoming: IncomingFiles): Promise<void> {
  const closing = createClosing();
  permitCopyingOnly(session.defaultSession);
  serveAppProtocol(readPageFiles(join(builtFolder, 'renderer')));
  const window = createMainWindow(join(builtFolder, 'preload', 'preload.cjs'));
  const backend = createBackend({
    folder: dataFolder,
    version: app.getVersion(),
    host: {
      saveFile: (fileName, mediaType, content) => saveWithDialog(window, { fileName, mediaType, content }),
      openFile: (fileName, mediaType) => openWithDialog(window, fileName, mediaType),
      readyToClose: closing.readyToClose,
      notYetSaved: closing.notYetSaved,
    },
    clock: () => new Date(),
    random: secureRandom,
  });
  closing.guard(window);
  recoverPage(window, crashLog(dataFolder));
  serveBridge(window, putUpMenu(window, backend, dataFolder).watchedCalls);
  closeAtQuit(() => backend.close());
  await loadPage(window);
  incoming.showIn(window);
}

function startShell(): void {
  app.enableSandbox();
  registerAppScheme();
  confineAllPages();
  const incoming = listenForFiles(launch.files);
  void app.whenReady().then(() => openWindow(incoming));
}

/** One instance for each data folder: the lock lies in the folder of Chromium's own files. */
function keepWindowFilesIn(folder: string): void {
  // Electron takes only a folder that exists.
  mkdirSync(folder, { recursive: true });
  app.setPath('userData', folder);
}

reportCrashes(dataFolder);
if (launch.dataFolder !== null) keepWindowFilesIn(join(launch.dataFolder, 'window'));
if (app.requestSingleInstanceLock()) startShell();
else app.exit(0);
