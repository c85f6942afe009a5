/** Processes that tests start and kill by the hundred, each bundled into one plain file: reading 150 modules took most of a child's life. */

import { renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { isOlderThanSources } from '../../electron/build/freshness.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const FOLDER = join(ROOT, 'dist', 'children');
const ENTRIES = {
  'editing-child': 'tests/trust/editing-child.ts',
  'sabotage-synchronous': 'tests/trust/sabotage-synchronous.ts',
  'spy-pragmas': 'tests/trust/spy-pragmas.ts',
  'open-and-report': 'tests/electron/store/open-and-report.ts',
} as const;
const SOURCES = ['core', 'electron', 'tests/trust', 'tests/electron/store', 'package-lock.json'];

export type ChildModule = keyof typeof ENTRIES;

/** Where the bundled module stands once `buildChildren` has run. */
export function childFile(name: ChildModule): string {
  return join(FOLDER, `${name}.mjs`);
}

/** Builds what is missing or older than its sources, beside the old files, so that nobody reads half of one. */
export async function buildChildren(): Promise<void> {
  const sources = SOURCES.map((source) => join(ROOT, source));
  const names = Object.keys(ENTRIES) as ChildModule[];
  if (!names.some((name) => isOlderThanSources(childFile(name), sources))) return;
  // The bundler takes longer to load than a child lives, so it is loaded only when it is wanted.
  const { build } = await import('vite');
  const staging = join(ROOT, 'dist', `.staging-children-${process.pid}`);
  await build({
    root: ROOT,
    configFile: false,
    logLevel: 'warn',
    publicDir: false,
    ssr: { target: 'node', noExternal: true },
    build: {
      target: 'node24',
      ssr: true,
      minify: false,
      outDir: staging,
      emptyOutDir: true,
      rolldownOptions: {
        input: Object.fromEntries(names.map((name) => [name, join(ROOT, ENTRIES[name])])),
        external: ['better-sqlite3'],
        output: { format: 'es', entryFileNames: '[name].mjs', chunkFileNames: '[name]-shared.mjs' },
      },
    },
  });
  rmSync(FOLDER, { recursive: true, force: true });
  renameSync(staging, FOLDER);
}
