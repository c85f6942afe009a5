/** The three things that are built, where they go and what they are built from. */

import { join } from 'node:path';
import { isOlderThanSources } from './freshness.ts';

export type BundleName = 'renderer' | 'main' | 'preload';

export interface Bundle {
  readonly outFolder: string;
  /** Written last or alone, so that its age is the bundle's age. */
  readonly outFile: string;
  readonly sources: readonly string[];
}

const SHELL_SOURCES = ['electron', 'core', 'package-lock.json'];

const BUNDLES: Readonly<Record<BundleName, Bundle>> = {
  renderer: {
    outFolder: 'dist/renderer',
    outFile: 'index.html',
    sources: ['renderer', 'core', 'electron/bridge', 'electron/build', 'package-lock.json'],
  },
  main: { outFolder: 'dist/shell', outFile: 'main.cjs', sources: SHELL_SOURCES },
  preload: { outFolder: 'dist/preload', outFile: 'preload.cjs', sources: SHELL_SOURCES },
};

/** Where the bundle's main file stands, below the project's root. */
export function bundleFile(root: string, name: BundleName): string {
  return join(root, BUNDLES[name].outFolder, BUNDLES[name].outFile);
}

/** Builds what is missing or older than its sources. Returns the names of what was built. */
export async function buildIfStale(root: string, names: readonly BundleName[]): Promise<readonly BundleName[]> {
  const stale = names.filter((name) => {
    const sources = BUNDLES[name].sources.map((source) => join(root, source));
    return isOlderThanSources(bundleFile(root, name), sources);
  });
  if (stale.length === 0) return stale;
  // The bundler takes longer to load than the program takes to start, so it is loaded only when it is wanted.
  const { buildBundle } = await import('./build-bundle.ts');
  for (const name of stale) await buildBundle(root, name, BUNDLES[name]);
  return stale;
}
