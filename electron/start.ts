/** `npm start`: builds what is stale, then opens the desktop window, or serves the page to a browser on this machine. */

import { spawn } from 'node:child_process';
import { dirname } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { buildIfStale, bundleFile } from './build/bundles.ts';
import { findElectronRuntime } from './start/electron-runtime.ts';
import { readStartOptions, START_USAGE, type StartOptions } from './start/start-options.ts';

const root = fileURLToPath(new URL('..', import.meta.url));

async function runElectron(executable: string, { dataFolder }: StartOptions): Promise<void> {
  await buildIfStale(root, ['renderer', 'main', 'preload']);
  const data = dataFolder === null ? [] : [`--data=${dataFolder}`];
  const child = spawn(executable, [root, ...data], { stdio: 'inherit' });
  child.once('error', (cause) => {
    console.error(`Electron could not be started: ${cause.message}`);
    process.exitCode = 1;
  });
  child.once('exit', (code) => {
    process.exitCode = code ?? 1;
  });
}

type Host = typeof import('./start/run-in-browser.ts');

/** One bundled file is read several times as fast as the many that it is made of. */
async function serveToBrowser(options: StartOptions): Promise<void> {
  await buildIfStale(root, ['renderer', 'host']);
  const host = (await import(pathToFileURL(bundleFile(root, 'host')).href)) as Host;
  await host.runInBrowser({ root, pageFolder: dirname(bundleFile(root, 'renderer')), options });
}

async function start(options: StartOptions): Promise<void> {
  const runtime = options.inBrowser ? null : findElectronRuntime(process.platform, process.env);
  if (runtime?.kind === 'found') return runElectron(runtime.executable, options);
  if (runtime !== null) console.log(`${runtime.why}; Evenrun runs in your browser instead.`);
  await serveToBrowser(options);
}

const options = readStartOptions(process.argv.slice(2), process.cwd());
if (options.ok) {
  await start(options.value);
} else {
  console.error(`${options.problems.join('\n')}\n\n${START_USAGE}`);
  process.exitCode = 1;
}
