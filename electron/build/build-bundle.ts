/** How the page and the programs that run in Node are bundled. */

import { renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import react from '@vitejs/plugin-react';
import { build, type InlineConfig } from 'vite';
import type { Bundle, BundleName } from './bundle.ts';

const PAGE: InlineConfig = {
  plugins: [react()],
  // A module of its own, as the page is; nothing is turned into text and back.
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    // Inlined pictures and the preload polyfill would want holes in the Content-Security-Policy.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 1500,
    // All that the page cannot start without is one script: a browser opens six connections to a host, and would wait for a seventh.
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: 'program', test: /renderer[\\/]main\.tsx$/ }] } } },
  },
};

/** What is imported only when it is asked for stands in a file of its own, where the program can load a second one. */
function commonJs(entry: string, outFile: string, isSplit: boolean): InlineConfig {
  return {
    build: {
      target: 'node24',
      ssr: entry,
      minify: false,
      rolldownOptions: {
        external: ['electron', 'better-sqlite3'],
        output: { format: 'cjs', entryFileNames: outFile, chunkFileNames: '[name].cjs', codeSplitting: isSplit },
      },
    },
    ssr: { target: 'node', noExternal: true },
  };
}

function configOf(name: BundleName, { entry, outFile }: Bundle): InlineConfig {
  // A sandboxed preload can load no second file; of the others only the host is in haste.
  return name === 'renderer' ? { ...PAGE, root: entry } : commonJs(entry, outFile, name === 'host');
}

/** A test runner sets NODE_ENV, and with it would build a page with the slow, checking half of React in it. */
async function inProductionMode(act: () => Promise<unknown>): Promise<void> {
  const before = process.env['NODE_ENV'];
  process.env['NODE_ENV'] = 'production';
  try {
    await act();
  } finally {
    if (before === undefined) delete process.env['NODE_ENV'];
    else process.env['NODE_ENV'] = before;
  }
}

/** Builds beside the old bundle and then takes its place, so that nobody ever reads half of one. */
export async function buildBundle(root: string, name: BundleName, bundle: Bundle): Promise<void> {
  const config = configOf(name, bundle);
  const outFolder = join(root, bundle.outFolder);
  const staging = join(root, 'dist', `.staging-${name}-${process.pid}`);
  await inProductionMode(() =>
    build({
      ...config,
      root: join(root, config.root ?? ''),
      configFile: false,
      logLevel: 'warn',
      build: { ...config.build, outDir: staging, emptyOutDir: true },
    }),
  );
  rmSync(outFolder, { recursive: true, force: true });
  renameSync(staging, outFolder);
}
