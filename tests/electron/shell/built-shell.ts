/** Runs the built main process and preload, as packaged, against the double of Electron. */

import { cpSync, readFileSync, symlinkSync } from 'node:fs';
import { createRequire, registerHooks } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { temporaryFolder } from '../../temporary-folder.ts';
import type { electron as electronDouble, WindowDouble } from '../electron-double.ts';

type Electron = typeof electronDouble;

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const DOUBLE = fileURLToPath(new URL('../electron-double.ts', import.meta.url));
/** There to end what hangs. */
const CALL_TIME_LIMIT_MS = 60_000;

/** Each run has a double of its own, as each process has an Electron of its own: a copy, for modules are kept by path. */
let doubleInUse = DOUBLE;

registerHooks({
  resolve(specifier, context, next) {
    if (specifier !== 'electron') return next(specifier, context);
    return { url: pathToFileURL(doubleInUse).href, format: 'module-typescript', shortCircuit: true };
  },
});

/** Lays the built files out as they are in a package, in a folder of their own, and a fresh double beside them. */
function installBuilt(pageFolder: string): string {
  const folder = temporaryFolder('built');
  for (const part of ['shell', 'preload', 'reader', 'planner', 'drawer'])
    cpSync(join(ROOT, 'dist', part), join(folder, part), { recursive: true });
  cpSync(pageFolder, join(folder, 'renderer'), { recursive: true });
  symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'));
  doubleInUse = join(folder, 'electron-double.ts');
  cpSync(DOUBLE, doubleInUse);
  return folder;
}

export interface ShellRun {
  readonly electron: Electron;
  /** Where the built files were laid out. */
  readonly folder: string;
  readonly dataFolder: string;
  /** The one window; throws before there is one. */
  window(): WindowDouble;
  /** What the program does about a fault that nobody caught. */
  readonly onUncaught: (cause: unknown) => void;
}

type ProcessListener = (cause: unknown) => void;

const CRASH_EVENTS = ['uncaughtException', 'unhandledRejection'] as const;

/** Takes off what the program put on this process, which is not its own; gives back what it wants told of faults. */
function takeOffListeners(work: () => void): ProcessListener {
  const before = new Set(CRASH_EVENTS.flatMap((name) => process.listeners(name as 'uncaughtException')));
  work();
  const added = CRASH_EVENTS.map((name) => {
    const listener = process.listeners(name as 'uncaughtException').find((candidate) => !before.has(candidate));
    if (listener !== undefined) process.off(name, listener);
    return listener as ProcessListener | undefined;
  });
  return (cause) => {
    for (const tell of added) tell?.(cause);
  };
}

export interface LaunchOptions {
  /** A folder with a page; by default the built one. */
  readonly pageFolder?: string;
  readonly dataFolder?: string;
  readonly argv?: readonly string[];
  /** What the system does before the program's first line, such as refusing it the lock. */
  readonly before?: (electron: Electron) => void;
}

/** Loads the built main file as Electron would. The app is not ready yet. */
export function launchBuilt({ argv = [], before, ...options }: LaunchOptions): ShellRun {
  const folder = installBuilt(options.pageFolder ?? join(ROOT, 'dist/renderer'));
  const dataFolder = options.dataFolder ?? temporaryFolder('data');
  const require = createRequire(join(folder, 'start.cjs'));
  const { electron } = require('electron') as { electron: Electron };
  before?.(electron);
  const mainFile = join(folder, 'shell/main.cjs');
  const argvBefore = process.argv;
  process.argv = ['/opt/evenrun', `--data=${dataFolder}`, ...argv];
  const onUncaught = takeOffListeners(() => {
    try {
      require(mainFile);
    } finally {
      process.argv = argvBefore;
    }
  });
  const window = () => {
    const found = electron.BrowserWindow.all[0];
    if (found === undefined) throw new Error('There is no window');
    return found;
  };
  return { electron, folder, dataFolder, window, onUncaught };
}

/** Waits until the check passes. */
export async function until(check: () => boolean | Promise<boolean>, what: string): Promise<void> {
  const endMs = performance.now() + CALL_TIME_LIMIT_MS;
  while (!(await check())) {
    if (performance.now() > endMs) throw new Error(`Waited in vain: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

/** Makes the app ready and waits until the window has loaded its page. */
export async function becomeReady(shell: ShellRun): Promise<WindowDouble> {
  shell.electron.app.becomeReady();
  await until(() => shell.electron.BrowserWindow.all[0]?.loaded != null, 'the window');
  return shell.window();
}

/** Asks as the window's own page would. */
export function callFromPage(shell: ShellRun, name: string, request: unknown): Promise<unknown> {
  const { webContents } = shell.window();
  const handler = shell.electron.ipcMain.handlers.get('evenrun:call');
  if (handler === undefined) throw new Error('Nobody answers calls');
  return handler({ sender: webContents, senderFrame: webContents.mainFrame }, name, request) as Promise<unknown>;
}

/** Stands in for Electron inside a real page: what the preload requires, wired to the double of the main process. */
const PAGE_ELECTRON = `
  const heard = new Map();
  globalThis.tellPreload = (channel, message) => heard.get(channel)?.({ sender: 'secret' }, message);
  const electron = {
    ipcRenderer: {
      on: (channel, listener) => heard.set(channel, listener),
      invoke: (channel, ...rest) => globalThis.invokeMain(channel, ...rest),
    },
    contextBridge: { exposeInMainWorld: (name, members) => { globalThis[name] = Object.freeze(members); } },
  };
  const requireInPage = (name) => { if (name !== 'electron') throw new Error('No module ' + name); return electron; };
`;

const PAGE_ORIGIN = 'https://evenrun.test';

/** Lets the page copy in the browser as the main process lets it in Electron, and no more. */
async function permitCopying(shell: ShellRun, page: Page): Promise<void> {
  const { permissionCheck } = shell.electron.session.defaultSession.handlers;
  const asking = { isMainFrame: true, requestingUrl: 'app://evenrun/' };
  const mayCopy = permissionCheck?.(
    ...([shell.window().webContents, 'clipboard-sanitized-write', 'app://evenrun', asking] as never[]),
  );
  // Without it this browser refuses.
  if (mayCopy === true) await page.context().grantPermissions(['clipboard-write'], { origin: PAGE_ORIGIN });
}

/** Shows the window's page in a real browser: files from the app protocol, the built preload before it, calls to the main process. */
export async function showInBrowser(shell: ShellRun, page: Page): Promise<void> {
  const { webContents } = shell.window();
  const serve = shell.electron.protocol.handlers.get('app');
  if (serve === undefined) throw new Error('The app protocol is not served');
  await page.route('**/*', async (route) => {
    const asked = route.request();
    // Whatever the page asks of anyone else fails, and the test sees it.
    if (!asked.url().startsWith(`${PAGE_ORIGIN}/`)) return route.abort();
    const address = asked.url().replace(PAGE_ORIGIN, 'app://evenrun');
    const answer = serve(new Request(address, { method: asked.method() }));
    const body = Buffer.from(await answer.arrayBuffer());
    await route.fulfill({ status: answer.status, headers: Object.fromEntries(answer.headers), body });
  });
  await page.exposeFunction('invokeMain', (_channel: string, name: string, request: unknown) =>
    callFromPage(shell, name, request),
  );
  webContents.deliver = (channel, message) => {
    const tell = ([to, what]: [string, unknown]) =>
      (globalThis as unknown as { tellPreload(channel: string, message: unknown): void }).tellPreload(to, what);
    void page.evaluate(tell, [channel, message] as [string, unknown]);
  };
  const preload = readFileSync(join(shell.folder, 'preload/preload.cjs'), 'utf8');
  await page.addInitScript({ content: `{ ${PAGE_ELECTRON} ((require) => { ${preload}\n})(requireInPage); }` });
  await permitCopying(shell, page);
  await page.goto(`${PAGE_ORIGIN}/`);
}
