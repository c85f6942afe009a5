/** Runs the back half in this process and serves the page to a browser, until the terminal says stop. */

import { readFileSync } from 'node:fs';
import { flushCompileCache } from 'node:module';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { defaultDataFolder } from '../data-folder.ts';
import { startLoopbackHost } from '../loopback/loopback-host.ts';
import { handedOver } from '../output/saved-file.ts';
import { readPageFiles } from '../page/page-files.ts';
import { secureRandom } from '../random.ts';
import type { Backend, Host } from '../store/backend.ts';
import { type BackHalf, backHalfWhenAsked } from './back-half-when-asked.ts';
import { openInBrowser } from './open-browser.ts';
import type { StartOptions } from './start-options.ts';

/** A browser saves files by itself, and its pages close without asking. */
const BROWSER_HOST: Host = {
  saveFile: async (...file) => handedOver(...file),
  readyToClose: () => undefined,
};

function versionOf(root: string): string {
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { readonly version: string };
  return version;
}

async function openBackend(root: string, folder: string | null): Promise<Backend> {
  const { createBackend } = await import('../store/backend.ts');
  const usual = defaultDataFolder({ platform: process.platform, env: process.env, homeFolder: homedir() });
  return createBackend({
    folder: folder ?? usual,
    version: versionOf(root),
    host: BROWSER_HOST,
    clock: () => new Date(),
    random: secureRandom,
  });
}

export interface BrowserRun {
  /** The project's root. */
  readonly root: string;
  /** Holds the built page. */
  readonly pageFolder: string;
  readonly options: StartOptions;
  /** Whether there is a screen for the browser to come up on. */
  readonly hasScreen: boolean;
}

/** What stands over the address. */
function readyWords(isOpened: boolean): string {
  return isOpened
    ? 'Evenrun is ready and comes up in your browser. If it does not, open this address on this machine:'
    : 'Evenrun is ready. Open this address in a browser on this machine:';
}

async function openAhead(backend: BackHalf): Promise<void> {
  await backend.openAhead();
  // Kept now, not at the end, for a terminal that is closed ends the program without an end.
  flushCompileCache();
}

/** Ends once the host is serving; the process lives on until Ctrl+C or a request to end. */
export async function runInBrowser({ root, pageFolder, options, hasScreen }: BrowserRun): Promise<void> {
  const backend = backHalfWhenAsked(() => openBackend(root, options.dataFolder));
  const files = readPageFiles(pageFolder);
  const host = await startLoopbackHost({
    files,
    calls: backend,
    port: options.port,
    pageSent: () => void openAhead(backend),
  });
  const isOpened = hasScreen && options.opensBrowser;
  console.log(`${readyWords(isOpened)}\n\n  ${host.address}\n`);
  console.log('The address holds a secret for this run; do not pass it on. Ctrl+C ends the program.');
  if (isOpened) openInBrowser(host.address);
  const end = async (): Promise<void> => {
    await host.close();
    await backend.close();
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => void end());
}
