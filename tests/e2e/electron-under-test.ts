/** The desktop program for end-to-end tests: the built main process in a real Electron, with its own window. */

import { fileURLToPath } from 'node:url';
import { _electron, type ElectronApplication, type Page } from 'playwright-core';
import { buildIfStale } from '../../electron/build/bundles.ts';
import { APP_ORIGIN } from '../../electron/shell/app-address.ts';
import type { TestBackend } from '../trust/backend-under-test.ts';
import type { AppUnderTest } from './running-app.ts';
import { type Faults, watchFaults } from './watch-faults.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export interface DesktopStage {
  readonly executable: string;
  /** Where the program keeps its database; the window's own files lie beside it. */
  readonly folder: string;
  readonly viewport: { readonly width: number; readonly height: number };
}

/** The backend lives in the main process; the page's bridge is the way to it. */
function backendThrough(page: Page): TestBackend {
  const dispatch = (name: string, request: unknown): Promise<unknown> =>
    page.evaluate(
      ([called, asked]) => {
        const { evenrun } = globalThis as unknown as { evenrun: { call(name: string, request: unknown): unknown } };
        return evenrun.call(called, asked);
      },
      [name, request] as const,
    );
  const call: TestBackend['call'] = async (name, request) => (await dispatch(name, request)) as never;
  const must: TestBackend['must'] = async (name, request) => {
    const reply = await call(name, request);
    if (!reply.ok) throw new Error(`${name} was refused: ${JSON.stringify(reply.problems)}`);
    return reply.value;
  };
  return { dispatch, call, must, close: () => Promise.resolve() };
}

async function openDesktop({ executable, folder, viewport }: DesktopStage): Promise<{
  readonly electron: ElectronApplication;
  readonly page: Page;
  readonly faults: Faults;
}> {
  await buildIfStale(ROOT, ['renderer', 'main', 'preload']);
  const electron = await _electron.launch({ executablePath: executable, args: [ROOT, `--data=${folder}`] });
  const page = await electron.firstWindow();
  const faults = await watchFaults(page, APP_ORIGIN);
  await page.setViewportSize(viewport);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  return { electron, page, faults };
}

function onlyOnLoopback(part: string): never {
  throw new Error(`The desktop program has no ${part}: start this test with { host: 'loopback' }.`);
}

/** Ends once the window shows the program with what `prepare` has put in place. */
export async function raiseDesktop(
  stage: DesktopStage,
  ending: { readonly remove: () => void },
  prepare?: (backend: TestBackend) => Promise<void>,
): Promise<AppUnderTest> {
  const { electron, page, faults } = await openDesktop(stage);
  const backend = backendThrough(page);
  await prepare?.(backend);
  // What watches for faults counts from the page's first line on.
  await page.reload();
  return {
    folder: stage.folder,
    backend,
    page,
    faults,
    context: electron.context(),
    get host(): never {
      return onlyOnLoopback('loopback host');
    },
    get gate(): never {
      return onlyOnLoopback('gate for calls');
    },
    get browser(): never {
      return onlyOnLoopback('browser of its own');
    },
    stop: () => electron.close(),
    restart: async () => {
      await electron.close();
      return await raiseDesktop(stage, ending);
    },
    end: async () => {
      await electron.close();
      ending.remove();
    },
  };
}
