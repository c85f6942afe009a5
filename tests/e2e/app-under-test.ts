/** The whole program for end-to-end tests: in a real Electron where there is one, else over the loopback host in one Chromium. */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { buildIfStale, bundleFile } from '../../electron/build/bundles.ts';
import { type LoopbackHost, startLoopbackHost } from '../../electron/loopback/loopback-host.ts';
import { readPageFiles } from '../../electron/page/page-files.ts';
import { findElectronRuntime } from '../../electron/start/electron-runtime.ts';
import { launchBrowser } from '../browser.ts';
import { openBackend, type TestBackend } from '../trust/backend-under-test.ts';
import { CallGate } from './call-gate.ts';
import { chooseHost, type HostWishes } from './choose-host.ts';
import { raiseDesktop } from './electron-under-test.ts';
import type { AppUnderTest, RunningApp } from './running-app.ts';
import { type Faults, watchFaults } from './watch-faults.ts';

export type { AppUnderTest } from './running-app.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export async function startApp(folder: string): Promise<RunningApp> {
  await buildIfStale(ROOT, ['renderer']);
  const backend = openBackend(folder, Math.random);
  const gate = new CallGate({ call: (name, request) => backend.dispatch(name, request) });
  const files = readPageFiles(join(bundleFile(ROOT, 'renderer'), '..'));
  const host = await startLoopbackHost({ files, calls: gate });
  const stop = async () => {
    gate.open();
    await host.close();
    await backend.close();
  };
  return { backend, host, gate, stop };
}

/** A window on the running program; `faults` fills as the page misbehaves. */
export async function openWindow(
  context: BrowserContext,
  host: LoopbackHost,
): Promise<{ readonly page: Page; readonly faults: Faults }> {
  const page = await context.newPage();
  const faults = await watchFaults(page, new URL(host.address).origin);
  // Choosers are caught from the start: caught only from a key press on, the page may be quicker than the catching.
  page.on('filechooser', () => undefined);
  await page.goto(host.address);
  return { page, faults };
}

export interface AppOptions extends Pick<HostWishes, 'host'> {
  /** A browser to share; left out: one is started, and closed at the end. */
  readonly browser?: Browser;
  readonly context?: BrowserContextOptions;
  /** A data folder that is there already, which `end` removes; left out: one of its own. */
  readonly folder?: string;
  /** Called with the data folder before the backend is made. */
  readonly before?: (folder: string) => void;
  /** Called with the backend before the page is opened, to put headers in place. */
  readonly prepare?: (backend: TestBackend) => Promise<void>;
}

/** Comfortable for every screen; tests of narrow windows set their own. */
const WINDOW = { width: 1366, height: 768 } as const;

interface Stage {
  readonly folder: string;
  readonly browser: Browser;
  readonly ownsBrowser: boolean;
  readonly context: BrowserContextOptions;
}

async function raise(stage: Stage, prepare?: AppOptions['prepare']): Promise<AppUnderTest> {
  const { folder, browser } = stage;
  const running = await startApp(folder);
  await prepare?.(running.backend);
  const context = await browser.newContext({ viewport: WINDOW, reducedMotion: 'reduce', ...stage.context });
  const { page, faults } = await openWindow(context, running.host);
  const lower = async () => {
    await context.close();
    await running.stop();
  };
  const restart = async () => {
    await lower();
    return await raise(stage);
  };
  const end = async () => {
    await lower();
    if (stage.ownsBrowser) await browser.close();
    rmSync(folder, { recursive: true, force: true });
  };
  return { ...running, folder, browser, context, page, faults, restart, end };
}

export async function launchApp(options: AppOptions = {}): Promise<AppUnderTest> {
  const folder = options.folder ?? mkdtempSync(join(tmpdir(), 'evenrun-e2e-'));
  options.before?.(folder);
  const host = chooseHost(options, findElectronRuntime(process.platform, process.env));
  if (host.kind === 'electron') {
    const remove = () => rmSync(folder, { recursive: true, force: true });
    return await raiseDesktop({ executable: host.executable, folder, viewport: WINDOW }, { remove }, options.prepare);
  }
  const browser = options.browser ?? (await launchBrowser());
  const stage = { folder, browser, ownsBrowser: options.browser === undefined, context: options.context ?? {} };
  return await raise(stage, options.prepare);
}
