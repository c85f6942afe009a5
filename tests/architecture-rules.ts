/** The arrows of the house: which folder may import what. */

import type { SourceFile, SourceImport } from './source-files.ts';

/** What each folder of core may use besides itself and the files at core's root that belong to all. */
const CORE_ARROWS: Readonly<Record<string, readonly string[]>> = {
  units: [],
  spreadsheet: [],
  header: ['spreadsheet', 'units'],
  path: ['header', 'spreadsheet', 'units'],
  length: ['path', 'header', 'units'],
  edits: ['path', 'length', 'header', 'units'],
  stock: ['length', 'header', 'spreadsheet', 'units'],
  asbuilt: ['path', 'length', 'edits', 'header', 'units'],
  gas: ['length', 'header', 'units'],
  moves: ['stock', 'path', 'length', 'edits', 'header', 'units'],
  propose: ['moves', 'stock', 'path', 'length', 'edits', 'header', 'units'],
  archive: ['moves', 'stock', 'asbuilt', 'length', 'header', 'units'],
  sheet: ['stock', 'asbuilt', 'path', 'gas', 'length', 'edits', 'header', 'units'],
};

/** What each room of the page may use besides itself. A screen uses no other screen; what two of them need stands below them. */
export const RENDERER_ARROWS: Readonly<Record<string, readonly string[]>> = {
  // Below all screens: controls and words, the way to the host, commands, the open header.
  ui: [],
  host: ['ui'],
  commands: ['ui'],
  session: ['host', 'ui'],
  // Parts of the bench. The board and the view know the header alone, and not who shows them.
  board: ['ui'],
  view: ['ui'],
  shape: ['view', 'session', 'host', 'ui'],
  moves: ['session', 'ui'],
  asbuilt: ['view', 'session', 'ui'],
  gas: ['session', 'ui'],
  pictures: ['session', 'host', 'ui'],
  // Screens.
  bench: ['board', 'view', 'shape', 'moves', 'asbuilt', 'gas', 'pictures', 'session', 'commands', 'ui'],
  headers: ['session', 'host', 'ui'],
  shelf: ['commands', 'host', 'ui'],
  archive: ['session', 'commands', 'host', 'ui'],
  cutplan: ['session', 'host', 'ui'],
  sheet: ['session', 'host', 'ui'],
  // Its pictures are those of the bench.
  help: ['view', 'commands', 'ui'],
  backups: ['host', 'ui'],
  app: [
    'bench',
    'headers',
    'shelf',
    'archive',
    'cutplan',
    'sheet',
    'help',
    'backups',
    'session',
    'commands',
    'host',
    'ui',
  ],
  // The file that starts the page.
  '': ['app', 'host', 'ui'],
};

/** Files of the bridge that the page may use: the contract's types alone, for its schemas would bring the whole of zod along; the table of commands, which is no more than words and keys. */
const PAGE_AND_BRIDGE = { typesOnly: 'electron/bridge/contract.ts', values: 'electron/bridge/commands.ts' } as const;

/** Files at core's root that every folder of core may use: what failures are, and the union of them. */
const CORE_COMMON = new Set(['core/result.ts', 'core/problem.ts']);

/** The packages that core may use: pure, so that core stays so, and each for something that is not ours to write. */
export const CORE_PACKAGES: ReadonlyMap<string, string> = new Map([
  ['zod', 'the run-time shape of the document, checked on every file, row and message'],
  ['papaparse', 'cells of spreadsheets out of text and into it, quotes, line ends and live formulas included'],
  ['jsonc-parser', 'JSON walked with positions, so that a doubled key or a fault can be pointed at'],
  ['flatqueue', 'a priority queue for searches that look at the nearest first'],
]);

/** Packages that one part of the house keeps to itself. */
const KEPT_PACKAGES: readonly (readonly [name: string, allowed: RegExp])[] = [
  ['electron', /^electron\/(?:shell\/|main\.ts$|preload\.ts$)|^tests\//],
  ['better-sqlite3', /^electron\/store\/|^tests\//],
  ['vite', /^electron\/build\/|^tests\//],
  ['@vitejs/plugin-react', /^electron\/build\//],
  ['electron-builder', /^electron\/build\/|^tests\//],
  ['react', /^(?:renderer|tests)\//],
  ['three', /^(?:renderer|tests)\//],
  ['d3', /^(?:renderer|tests)\//],
  ['pdfkit', /^electron\/output\/pages\/|^tests\//],
  ['fontkit', /^electron\/output\/pages\/|^tests\//],
  ['dxf-writer', /^electron\/output\/strips\/|^tests\//],
  // One reader and one writer of spreadsheets, one of JSON files.
  ['papaparse', /^core\/spreadsheet\/|^tests\//],
  ['jsonc-parser', /^core\/header\/file\/|^tests\//],
];

function corePart(path: string): string | null {
  return /^core\/([^/]+)\//.exec(path)?.[1] ?? null;
}

function coreFault(from: string, { specifier, target }: SourceImport): string | null {
  if (target === null)
    return CORE_PACKAGES.has(specifier) ? null : `core uses no package but ${[...CORE_PACKAGES.keys()].join(', ')}`;
  if (!target.startsWith('core/')) return 'core uses nothing outside itself';
  const [part, other] = [corePart(from), corePart(target)];
  if (part === null || part === other) return null;
  if (other === null) return CORE_COMMON.has(target) ? null : "folders of core do not use core's own face";
  return CORE_ARROWS[part]?.includes(other) ? null : `core/${part} does not use core/${other}`;
}

/** What stands in core is core's own affair: everyone else comes in by its face. */
function faceFault(target: string): string | null {
  return target.startsWith('core/') && target !== 'core/index.ts' ? "the way into core is core's face" : null;
}

function electronFault(from: string, { specifier, target }: SourceImport): string | null {
  const isBridge = from.startsWith('electron/bridge/');
  if (target === null) return isBridge && specifier !== 'zod' ? 'the bridge uses no package but zod' : null;
  if (isBridge && !/^(?:core|electron\/bridge)\//.test(target)) return 'the bridge uses core only';
  return /^(?:core|electron)\//.test(target) ? faceFault(target) : 'electron uses core only';
}

/** The room of the page that a file stands in, whichever its inner room; empty for files at the page's root. */
function pageRoom(path: string): string {
  return /^renderer\/(?:([^/]+)\/)?/.exec(path)?.[1] ?? '';
}

function roomFault(from: string, target: string): string | null {
  const [room, other] = [pageRoom(from), pageRoom(target)];
  if (room === other) return null;
  return RENDERER_ARROWS[room]?.includes(other) === true ? null : `renderer/${room} does not use renderer/${other}`;
}

function rendererFault(from: string, { specifier, target, isTypeOnly }: SourceImport): string | null {
  if (target === null) return specifier.startsWith('node:') ? 'the page knows no Node' : null;
  if (target.startsWith('renderer/')) return roomFault(from, target);
  if (target.startsWith('core/')) return faceFault(target);
  if (target === PAGE_AND_BRIDGE.values || (target === PAGE_AND_BRIDGE.typesOnly && isTypeOnly)) return null;
  return 'the page uses core, types of the contract, and the table of commands';
}

function packageName(specifier: string): string {
  const [scope, name] = specifier.split('/');
  return specifier.startsWith('@') ? `${scope}/${name}` : (scope ?? '');
}

/** Why the import goes against the arrows; null when it does not. */
export function importFault(from: string, stated: SourceImport): string | null {
  const kept = KEPT_PACKAGES.find(([name]) => stated.target === null && packageName(stated.specifier) === name);
  if (kept !== undefined && !kept[1].test(from)) return `${kept[0]} is not for this folder`;
  if (from.startsWith('core/')) return coreFault(from, stated);
  if (from.startsWith('electron/')) return electronFault(from, stated);
  if (from.startsWith('renderer/')) return rendererFault(from, stated);
  return null;
}

/** A circle of imports, of types alone as well, as paths; null when there is none. */
export function findCircle(sources: readonly Pick<SourceFile, 'path' | 'imports'>[]): readonly string[] | null {
  const targets = new Map(sources.map(({ path, imports }) => [path, imports.map((one) => one.target)]));
  const done = new Set<string>();
  const search = (path: string, trail: readonly string[]): readonly string[] | null => {
    if (trail.includes(path)) return [...trail.slice(trail.indexOf(path)), path];
    if (done.has(path)) return null;
    for (const target of targets.get(path) ?? []) {
      const circle = target === null ? null : search(target, [...trail, path]);
      if (circle !== null) return circle;
    }
    done.add(path);
    return null;
  };
  for (const { path } of sources) {
    const circle = search(path, []);
    if (circle !== null) return circle;
  }
  return null;
}
