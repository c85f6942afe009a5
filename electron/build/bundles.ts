/** What is built, where it goes and what it is built from. */

import { join } from 'node:path';
import type { Bundle, BundleName } from './bundle.ts';
import { isOlderThanSources, type Looked } from './freshness.ts';

const SHELL_SOURCES = ['electron', 'core', 'package-lock.json'];

const BUNDLES: Readonly<Record<BundleName, Bundle>> = {
  renderer: {
    entry: 'renderer',
    outFolder: 'dist/renderer',
    outFile: 'index.html',
    sources: ['renderer', 'core', 'electron/bridge', 'electron/build', 'package-lock.json'],
  },
  main: { entry: 'electron/main.ts', outFolder: 'dist/shell', outFile: 'main.cjs', sources: SHELL_SOURCES },
  preload: { entry: 'electron/preload.ts', outFolder: 'dist/preload', outFile: 'preload.cjs', sources: SHELL_SOURCES },
  host: {
    entry: 'electron/start/run-in-browser.ts',
    outFolder: 'dist/host',
    outFile: 'host.cjs',
    sources: SHELL_SOURCES,
  },
  reader: {
    entry: 'electron/output/preview-worker.ts',
    outFolder: 'dist/reader',
    outFile: 'reader.cjs',
    sources: SHELL_SOURCES,
  },
  planner: {
    entry: 'electron/solver/plan-worker.ts',
    outFolder: 'dist/planner',
    outFile: 'planner.cjs',
    sources: SHELL_SOURCES,
  },
  drawer: {
    entry: 'electron/output/drawing/draw-worker.ts',
    outFolder: 'dist/drawer',
    outFile: 'drawer.cjs',
    sources: SHELL_SOURCES,
  },
};

export const BUNDLE_NAMES = Object.keys(BUNDLES) as readonly BundleName[];

/** What a bundle starts from beside it, and cannot do without. */
const BESIDE: Partial<Readonly<Record<BundleName, readonly BundleName[]>>> = {
  main: ['reader', 'planner', 'drawer'],
  host: ['reader', 'planner', 'drawer'],
};

/** Where the bundle's main file stands, below the project's root. */
export function bundleFile(root: string, name: BundleName): string {
  return join(root, BUNDLES[name].outFolder, BUNDLES[name].outFile);
}

/** Builds what is missing or older than its sources, and what it needs beside it. Returns the names of what was built. */
export async function buildIfStale(root: string, names: readonly BundleName[]): Promise<readonly BundleName[]> {
  const wanted = new Set(names.flatMap((name) => [name, ...(BESIDE[name] ?? [])]));
  const looked: Looked = new Map();
  const stale = [...wanted].filter((name) => {
    const sources = BUNDLES[name].sources.map((source) => join(root, source));
    return isOlderThanSources(bundleFile(root, name), sources, looked);
  });
  if (stale.length === 0) return stale;
  // The bundler takes longer to load than the program takes to start, so it is loaded only when it is wanted.
  const { buildBundle } = await import('./build-bundle.ts');
  for (const name of stale) await buildBundle(root, name, BUNDLES[name]);
  return stale;
}
