/** Before any test: the browser is unpacked, and the page, the shell and the children that tests kill are built, once for all workers. */

import { fileURLToPath } from 'node:url';
import { buildIfStale } from '../electron/build/bundles.ts';
import { chromiumExecutable } from './browser.ts';
import { buildChildren } from './trust/child-bundle.ts';

const ROOT = fileURLToPath(new URL('..', import.meta.url));

/** Tests of core must run while the page does not compile; tests that want the page find none and fail. */
async function attempt(name: string, act: () => Promise<unknown>): Promise<void> {
  try {
    await act();
  } catch (cause) {
    console.error(`The build of ${name} failed: ${String(cause)}`);
  }
}

export async function setup(): Promise<void> {
  if (process.platform === 'linux') await chromiumExecutable();
  for (const name of ['renderer', 'main', 'preload', 'host'] as const)
    await attempt(name, () => buildIfStale(ROOT, [name]));
  await attempt('the children', buildChildren);
}
