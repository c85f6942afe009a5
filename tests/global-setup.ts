/** Before any test: the browser is unpacked and the page and the shell are built, once for all workers. */

import { fileURLToPath } from 'node:url';
import type { BundleName } from '../electron/build/bundle.ts';
import { buildIfStale } from '../electron/build/bundles.ts';
import { chromiumExecutable } from './browser.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const BUNDLES: readonly BundleName[] = ['renderer', 'main', 'preload', 'host'];

export async function setup(): Promise<void> {
  if (process.platform === 'linux') await chromiumExecutable();
  for (const name of BUNDLES) {
    try {
      await buildIfStale(root, [name]);
    } catch (cause) {
      // Tests of core must run while the page does not compile; tests that want the page find none and fail.
      console.error(`The build of ${name} failed: ${String(cause)}`);
    }
  }
}
