/** The one window: how it is made, and that nothing of it is opened wider than need be. */

import { BrowserWindow, nativeTheme } from 'electron';
import { PAGE_ADDRESS } from './app-address.ts';

/** Behind the page until it has painted; the page's own surfaces, light and dark. */
const SURFACE = { light: '#ffffff', dark: '#121212' } as const;

/** Makes the window, hidden until it has something to show. Electron keeps its place and size under its name. */
export function createMainWindow(preloadFile: string): BrowserWindow {
  const window = new BrowserWindow({
    name: 'bench',
    windowStatePersistence: true,
    width: 1366,
    height: 768,
    minWidth: 480,
    minHeight: 400,
    show: false,
    title: 'Evenrun',
    backgroundColor: nativeTheme.shouldUseDarkColors ? SURFACE.dark : SURFACE.light,
    webPreferences: {
      preload: preloadFile,
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      navigateOnDragDrop: false,
      spellcheck: false,
    },
  });
  window.once('ready-to-show', () => window.show());
  return window;
}

/** Loads the page anew. Ends when it is there; when it cannot be loaded, the window's own event tells of it. */
export async function loadPage(window: BrowserWindow): Promise<void> {
  await window.loadURL(PAGE_ADDRESS).catch(() => undefined);
}
