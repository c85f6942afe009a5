/** Puts the menu bar up and keeps its list of recent headers true. */

import { app, type BrowserWindow, dialog, Menu, shell } from 'electron';
import { type BridgeCalls, sendToPage } from './bridge-ipc.ts';
import { openFileIn } from './incoming-files.ts';
import { type MenuActs, menuTemplate, type RecentHeader } from './menu-template.ts';

const RECENT_LIMIT = 10;

/** Calls after which the list of headers may be another. */
const LISTING_CHANGES: ReadonlySet<string> = new Set([
  'start',
  'createHeader',
  'duplicateHeader',
  'importHeader',
  'binHeader',
  'restoreHeader',
  'restoreBackup',
  'openHeader',
]);

async function chooseFile(window: BrowserWindow): Promise<void> {
  const chosen = await dialog.showOpenDialog(window, {
    title: 'Open a header file',
    properties: ['openFile'],
    filters: [
      { name: 'Header files', extensions: ['json', 'evenrun'] },
      { name: 'All files', extensions: ['*'] },
    ],
  });
  const path = chosen.filePaths[0];
  if (!chosen.canceled && path !== undefined) await openFileIn(window, path);
}

/** The newest headers of the bench, or none while the database cannot be read. */
async function recentHeaders(calls: BridgeCalls): Promise<readonly RecentHeader[]> {
  const reply = (await calls.call('listHeaders', { place: 'bench' })) as ListReply;
  return reply.ok ? reply.value.headers.slice(0, RECENT_LIMIT) : [];
}

type ListReply =
  | { readonly ok: true; readonly value: { readonly headers: readonly RecentHeader[] } }
  | { readonly ok: false };

export interface AppMenu {
  /** The same calls, watched: the menu follows what they change. */
  readonly watchedCalls: BridgeCalls;
}

function actsOn(window: BrowserWindow, dataFolder: string): MenuActs {
  return {
    command: (command) => sendToPage(window, { kind: 'command', command }),
    openHeader: (headerId) => sendToPage(window, { kind: 'openHeader', headerId }),
    openFile: () => void chooseFile(window),
    showDataFolder: () => void shell.openPath(dataFolder),
  };
}

export function putUpMenu(window: BrowserWindow, calls: BridgeCalls, dataFolder: string): AppMenu {
  const acts = actsOn(window, dataFolder);
  let shown: string | null = null;
  const show = (recent: readonly RecentHeader[]): void => {
    const key = JSON.stringify(recent.map(({ headerId, name }) => [headerId, name]));
    // A menu that is swapped while it is open would close under the user's hand.
    if (key === shown) return;
    shown = key;
    Menu.setApplicationMenu(Menu.buildFromTemplate(menuTemplate(acts, { platform: process.platform, recent })));
  };
  show([]);
  app.setAboutPanelOptions({ applicationName: 'Evenrun', applicationVersion: app.getVersion() });
  return {
    watchedCalls: {
      async call(name, request) {
        const reply = await calls.call(name, request);
        if (LISTING_CHANGES.has(name)) setImmediate(() => void recentHeaders(calls).then(show));
        return reply;
      },
    },
  };
}
