/** `npm start`: builds what is stale, then opens the desktop window, or serves the page to a browser on this machine. */

import { dirname } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { buildIfStale, bundleFile } from './build/bundles.ts';
import { wordsForDeath } from './start/death-words.ts';
import { findElectronRuntime, hasScreen } from './start/electron-runtime.ts';
import type { FetchedRuntime } from './start/fetch-runtime.ts';
import { runDesktop } from './start/run-desktop.ts';
import { readStartOptions, START_USAGE, type StartOptions } from './start/start-options.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const { platform, arch, env } = process;

type Host = typeof import('./start/run-in-browser.ts');

/** One bundled file is read several times as fast as the many that it is made of. */
async function serveToBrowser(options: StartOptions): Promise<void> {
  await buildIfStale(root, ['renderer', 'host']);
  const host = (await import(pathToFileURL(bundleFile(root, 'host')).href)) as Host;
  const pageFolder = dirname(bundleFile(root, 'renderer'));
  await host.runInBrowser({ root, pageFolder, options, hasScreen: hasScreen(platform, env) });
}

/** Ctrl+C stops the fetch and lets it clear away after itself; a second one ends the program as usual. */
async function fetchUntilStopped(): Promise<FetchedRuntime> {
  const stopped = new AbortController();
  const stop = (): void => stopped.abort();
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  for (const signal of signals) process.once(signal, stop);
  // What fetches takes as long to load as the rest of the start, and is wanted once in the life of an installation.
  const { fetchRuntime } = await import('./start/fetch-runtime.ts');
  const fetched = await fetchRuntime({ platform, arch, env, signal: stopped.signal, output: process.stdout });
  for (const signal of signals) process.off(signal, stop);
  return fetched;
}

/** The executable to run; else why the browser is used, or that the person stopped the start. */
async function desktopRuntime(): Promise<FetchedRuntime> {
  const found = findElectronRuntime(platform, env);
  switch (found.kind) {
    case 'found':
      return { kind: 'fetched', executable: found.executable };
    case 'none':
      return { kind: 'failed', why: found.why };
    case 'missing':
      return fetchUntilStopped();
  }
}

/** Returns false where the runtime died at once, and the browser is wanted after all. */
async function wasShownOnDesktop(executable: string, { dataFolder }: StartOptions): Promise<boolean> {
  await buildIfStale(root, ['renderer', 'main', 'preload']);
  const data = dataFolder === null ? [] : [`--data=${dataFolder}`];
  const run = await runDesktop({ executable, args: [root, ...data], env });
  if (run.kind === 'ended') {
    process.exitCode = run.code;
    return true;
  }
  console.log(`${wordsForDeath(run.death).join('\n')}\nEvenrun runs in your browser instead.`);
  return false;
}

async function start(options: StartOptions): Promise<void> {
  if (options.inBrowser) return serveToBrowser(options);
  const runtime = await desktopRuntime();
  if (runtime.kind === 'stopped') {
    console.log('Stopped; nothing was left behind. The next start fetches it again.');
    process.exitCode = 130;
    return;
  }
  if (runtime.kind === 'failed') console.log(`${runtime.why}; Evenrun runs in your browser instead.`);
  else if (await wasShownOnDesktop(runtime.executable, options)) return;
  await serveToBrowser(options);
}

const options = readStartOptions(process.argv.slice(2), process.cwd());
if (options.ok) {
  await start(options.value);
} else {
  console.error(`${options.problems.join('\n')}\n\n${START_USAGE}`);
  process.exitCode = 1;
}
