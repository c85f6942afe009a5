/** Processes that tests start and kill by the hundred, each bundled into one plain file: reading 150 modules took most of a child's life. */

import { renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';
import { isOlderThanSources } from '../../electron/build/freshness.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const FOLDER = join(ROOT, 'dist', 'children');
const ENTRIES = {
  'editing-child': 'tests/trust/editing-child.ts',
  'shelf-child': 'tests/trust/shelf-child.ts',
  'finishing-child': 'tests/trust/finishing-child.ts',
  'sabotage-synchronous': 'tests/trust/sabotage-synchronous.ts',
  'spy-pragmas': 'tests/trust/spy-pragmas.ts',
  'open-and-report': 'tests/electron/store/open-and-report.ts',
} as const;
/** A program whose schema is one made-up migration further; otherwise `open-and-report`. */
const ENTRIES_AHEAD = { 'open-made-up': 'tests/electron/store/open-and-report.ts' } as const;
const MADE_UP_LIST = join(ROOT, 'tests/electron/store/made-up-list.ts');
const SOURCES = [
  'core',
  'electron',
  'tests/trust',
  'tests/electron/store',
  'tests/finished-lines.ts',
  'package-lock.json',
];

export type ChildModule = keyof typeof ENTRIES | keyof typeof ENTRIES_AHEAD;

/** Where the bundled module stands once `buildChildren` has run. */
export function childFile(name: ChildModule): string {
  return join(FOLDER, `${name}.mjs`);
}

/** Puts the list with the made-up migration in the place of the program's own, which it starts from. */
const AHEAD: Plugin = {
  name: 'made-up-migration',
  // Before the bundler's own way of finding files, or it is never asked.
  enforce: 'pre',
  resolveId(source, importer) {
    return source.endsWith('/migration-list.ts') && importer !== MADE_UP_LIST ? MADE_UP_LIST : null;
  },
};

/** Builds what is missing or older than its sources, beside the old files, so that nobody reads half of one. */
export async function buildChildren(): Promise<void> {
  const sources = SOURCES.map((source) => join(ROOT, source));
  const names = [...Object.keys(ENTRIES), ...Object.keys(ENTRIES_AHEAD)] as ChildModule[];
  if (!names.some((name) => isOlderThanSources(childFile(name), sources))) return;
  const staging = join(ROOT, 'dist', `.staging-children-${process.pid}`);
  await bundleInto(staging, ENTRIES, []);
  await bundleInto(staging, ENTRIES_AHEAD, [AHEAD]);
  rmSync(FOLDER, { recursive: true, force: true });
  renameSync(staging, FOLDER);
}

async function bundleInto(folder: string, entries: Readonly<Record<string, string>>, plugins: Plugin[]): Promise<void> {
  // The bundler takes longer to load than a child lives, so it is loaded only when it is wanted.
  const { build } = await import('vite');
  await build({
    root: ROOT,
    configFile: false,
    logLevel: 'warn',
    publicDir: false,
    plugins,
    ssr: { target: 'node', noExternal: true },
    build: {
      target: 'node24',
      ssr: true,
      minify: false,
      outDir: folder,
      emptyOutDir: false,
      rolldownOptions: {
        input: Object.fromEntries(Object.entries(entries).map(([name, entry]) => [name, join(ROOT, entry)])),
        external: ['better-sqlite3'],
        output: { format: 'es', entryFileNames: '[name].mjs', chunkFileNames: '[name]-[hash].mjs' },
      },
    },
  });
}
