/** A double of the Electron APIs that the shell uses: it records what it is told and lets a test play the system. */

import { EventEmitter } from 'node:events';
import { existsSync } from 'node:fs';

/** An event as Electron hands it over: it can be held back. */
export interface DoubleEvent {
  defaultPrevented: boolean;
  preventDefault(): void;
}

export function doubleEvent<Extra extends object>(extra: Extra): Extra & DoubleEvent {
  return {
    ...extra,
    defaultPrevented: false,
    preventDefault() {
      this.defaultPrevented = true;
    },
  };
}

export class FrameDouble {
  url = '';
  readonly parent: FrameDouble | null;
  constructor(parent: FrameDouble | null = null) {
    this.parent = parent;
  }
}

export class ContentsDouble extends EventEmitter {
  readonly mainFrame = new FrameDouble();
  readonly sent: { readonly channel: string; readonly message: unknown }[] = [];
  windowOpenHandler: ((details: { url: string }) => { action: string }) | null = null;
  crashed = false;
  /** Where messages to the page go; a test may wire this to a real page. */
  deliver: (channel: string, message: unknown) => void = () => undefined;

  send(channel: string, message: unknown): void {
    this.sent.push({ channel, message });
    this.deliver(channel, message);
  }
  setWindowOpenHandler(handler: (details: { url: string }) => { action: string }): void {
    this.windowOpenHandler = handler;
  }
  isCrashed(): boolean {
    return this.crashed;
  }
  forcefullyCrashRenderer(): void {
    this.crash('killed');
  }
  /** As the system ends the page's process. */
  crash(reason: string): void {
    this.crashed = reason !== 'clean-exit';
    this.emit('render-process-gone', {}, { reason, exitCode: 133 });
  }
}

export class WindowDouble extends EventEmitter {
  static all: WindowDouble[] = [];
  readonly options: Record<string, unknown>;
  readonly webContents = new ContentsDouble();
  readonly calls: string[] = [];
  destroyed = false;
  loaded: string | null = null;
  /** How often a page was loaded. */
  loads = 0;
  /** Chromium's code and words for why loading fails; null: it does not. */
  loadFault: readonly [code: number, description: string] | null = null;

  constructor(options: Record<string, unknown>) {
    super();
    this.options = options;
    WindowDouble.all.push(this);
    electron.app.emit('web-contents-created', doubleEvent({}), this.webContents);
  }
  async loadURL(url: string): Promise<void> {
    this.loads += 1;
    if (this.loadFault !== null) {
      this.webContents.emit('did-fail-load', {}, ...this.loadFault, url, true);
      throw new Error(`${this.loadFault[1]} (${this.loadFault[0]}) loading '${url}'`);
    }
    this.loaded = url;
    this.webContents.crashed = false;
    this.webContents.mainFrame.url = url;
    this.webContents.emit('did-finish-load');
  }
  show(): void {
    this.calls.push('show');
  }
  focus(): void {
    this.calls.push('focus');
  }
  restore(): void {
    this.calls.push('restore');
  }
  isMinimized(): boolean {
    return true;
  }
  isDestroyed(): boolean {
    return this.destroyed;
  }
  /** As a user's click on the cross: the window goes unless that is held back. */
  close(): void {
    const event = doubleEvent({});
    this.emit('close', event);
    if (!event.defaultPrevented) this.destroy();
  }
  destroy(): void {
    if (this.destroyed) return;
    this.destroyed = true;
    this.emit('closed');
    if (WindowDouble.all.every((window) => window.destroyed)) electron.app.emit('window-all-closed');
  }
}

type Answer = (event: unknown, ...rest: unknown[]) => unknown;

class AppDouble extends EventEmitter {
  readonly log: string[] = [];
  readonly paths = new Map<string, string>([['userData', '/nowhere/userData']]);
  readonly recentDocuments: string[] = [];
  hasLock = true;
  isReady = false;
  exitCode: number | null = null;
  private readonly ready = Promise.withResolvers<void>();

  enableSandbox(): void {
    this.log.push(this.isReady ? 'enableSandbox too late' : 'enableSandbox');
  }
  requestSingleInstanceLock(): boolean {
    this.log.push('requestSingleInstanceLock');
    return this.hasLock;
  }
  whenReady(): Promise<void> {
    return this.ready.promise;
  }
  becomeReady(): void {
    this.isReady = true;
    this.log.push('ready');
    this.ready.resolve();
  }
  getVersion(): string {
    return '9.9.9';
  }
  getPath(name: string): string {
    const path = this.paths.get(name);
    if (path === undefined) throw new Error(`No path named ${name}`);
    return path;
  }
  setPath(name: string, path: string): void {
    if (!existsSync(path)) throw new Error(`Electron takes only folders that exist, and ${path} does not`);
    this.paths.set(name, path);
  }
  setAboutPanelOptions(): void {
    this.log.push('setAboutPanelOptions');
  }
  addRecentDocument(path: string): void {
    this.recentDocuments.push(path);
  }
  /** As Electron does: asks every window to close, and goes only when all did. */
  quit(): void {
    this.emit('before-quit', doubleEvent({}));
    for (const window of WindowDouble.all) if (!window.destroyed) window.close();
    if (WindowDouble.all.some((window) => !window.destroyed)) return;
    const event = doubleEvent({});
    this.emit('will-quit', event);
    this.log.push(event.defaultPrevented ? 'quit held back' : 'gone');
  }
  exit(code = 0): void {
    this.exitCode ??= code;
    this.log.push(`exit ${code}`);
  }
}

class SessionDouble {
  readonly handlers: Record<string, ((...rest: never[]) => unknown) | undefined> = {};
  setPermissionRequestHandler(handler: (...rest: never[]) => unknown): void {
    this.handlers['permissionRequest'] = handler;
  }
  setPermissionCheckHandler(handler: (...rest: never[]) => unknown): void {
    this.handlers['permissionCheck'] = handler;
  }
  setDevicePermissionHandler(handler: (...rest: never[]) => unknown): void {
    this.handlers['devicePermission'] = handler;
  }
  setDisplayMediaRequestHandler(handler: (...rest: never[]) => unknown): void {
    this.handlers['displayMedia'] = handler;
  }
  setBluetoothPairingHandler(handler: (...rest: never[]) => unknown): void {
    this.handlers['bluetoothPairing'] = handler;
  }
}

class IpcMainDouble {
  readonly handlers = new Map<string, Answer>();
  handle(channel: string, answer: Answer): void {
    if (this.handlers.has(channel)) throw new Error(`A second handler for ${channel}`);
    this.handlers.set(channel, answer);
  }
  removeHandler(channel: string): void {
    this.handlers.delete(channel);
  }
}

/** A question as the shell asks it. */
export interface MessageOptions {
  readonly message: string;
  readonly detail?: string;
  readonly buttons?: readonly string[];
  readonly cancelId?: number;
  readonly signal?: AbortSignal;
}

class DialogDouble {
  readonly shown: { readonly kind: string; readonly options: unknown }[] = [];
  openAnswer: { canceled: boolean; filePaths: string[] } = { canceled: true, filePaths: [] };
  saveAnswer: { canceled: boolean; filePath: string } = { canceled: true, filePath: '' };

  async showOpenDialog(_window: unknown, options: unknown) {
    this.shown.push({ kind: 'open', options });
    return this.openAnswer;
  }
  async showSaveDialog(_window: unknown, options: unknown) {
    this.shown.push({ kind: 'save', options });
    return this.saveAnswer;
  }
  /** What the person presses: the label of a button. Null leaves the question standing until its signal ends it. */
  press: (question: MessageOptions) => string | null = ({ buttons }) => buttons?.[0] ?? 'OK';

  async showMessageBox(_window: unknown, options: MessageOptions): Promise<{ response: number }> {
    this.shown.push({ kind: 'message', options });
    const label = this.press(options);
    if (label !== null) {
      const response = (options.buttons ?? ['OK']).indexOf(label);
      if (response < 0) throw new Error(`No button says ${label}`);
      return { response };
    }
    return new Promise((resolve) => {
      options.signal?.addEventListener('abort', () => resolve({ response: options.cancelId ?? 0 }));
    });
  }
  showErrorBox(title: string, content: string): void {
    this.shown.push({ kind: 'error', options: { title, content } });
  }
}

class ProtocolDouble {
  schemes: unknown = null;
  readonly handlers = new Map<string, (request: Request) => Response>();
  registerSchemesAsPrivileged(schemes: unknown): void {
    if (electron.app.isReady) throw new Error('Schemes are registered before the app is ready');
    this.schemes = schemes;
  }
  handle(scheme: string, handler: (request: Request) => Response): void {
    this.handlers.set(scheme, handler);
  }
}

class ShellDouble {
  readonly opened: string[] = [];
  async openPath(path: string): Promise<string> {
    this.opened.push(path);
    return '';
  }
}

class MenuDouble {
  shown: unknown[] = [];
  buildFromTemplate(template: unknown): unknown {
    return template;
  }
  setApplicationMenu(menu: unknown): void {
    this.shown.push(menu);
  }
}

/** The page's side of the bridge. */
class IpcRendererDouble extends EventEmitter {
  readonly invoked: { readonly channel: string; readonly rest: readonly unknown[] }[] = [];
  async invoke(channel: string, ...rest: unknown[]): Promise<unknown> {
    this.invoked.push({ channel, rest });
    return { ok: true, value: {} };
  }
}

class ContextBridgeDouble {
  readonly exposed: Record<string, Record<string, unknown>> = {};
  exposeInMainWorld(name: string, members: Record<string, unknown>): void {
    this.exposed[name] = members;
  }
}

function fresh() {
  return {
    app: new AppDouble(),
    BrowserWindow: WindowDouble,
    Menu: new MenuDouble(),
    contextBridge: new ContextBridgeDouble(),
    dialog: new DialogDouble(),
    ipcMain: new IpcMainDouble(),
    ipcRenderer: new IpcRendererDouble(),
    nativeTheme: { shouldUseDarkColors: false },
    powerMonitor: new EventEmitter(),
    protocol: new ProtocolDouble(),
    session: { defaultSession: new SessionDouble() },
    shell: new ShellDouble(),
  };
}

/** The double as the shell imports it. One a test file or process, as Electron itself. */
export const electron = fresh();
export const {
  app,
  BrowserWindow,
  Menu,
  contextBridge,
  dialog,
  ipcMain,
  ipcRenderer,
  nativeTheme,
  powerMonitor,
  protocol,
  session,
  shell,
} = electron;
