/** How the installers are made: what goes into them, and which of Electron's doors are shut for good. */

import type { Configuration } from 'electron-builder';

export type PackagedPlatform = 'linux' | 'darwin' | 'win32';

/**
 * Everything the shell and its page need is bundled in `dist`; only the solver, the typefaces of paper and the database's native module stay modules,
 * and each installer carries the native one of its own platform; the builder fills in the processor.
 */
function packagedFiles(platform: PackagedPlatform): string[] {
  return [
    'dist/renderer/**',
    'dist/shell/**',
    'dist/preload/**',
    'dist/reader/**',
    'dist/planner/**',
    'dist/drawer/**',
    'package.json',
    'LICENSE',
    '!node_modules/**',
    'node_modules/highs/package.json',
    'node_modules/highs/LICENSE',
    'node_modules/highs/build/highs.js',
    'node_modules/highs/build/highs.wasm',
    'node_modules/@fontsource/{atkinson-hyperlegible-next,noto-sans,noto-sans-math}/package.json',
    'node_modules/@fontsource/{atkinson-hyperlegible-next,noto-sans,noto-sans-math}/LICENSE',
    'node_modules/@fontsource/atkinson-hyperlegible-next/files/*-{latin,latin-ext}-{400,700}-normal.woff',
    'node_modules/@fontsource/noto-sans/files/*-{latin,latin-ext,cyrillic,cyrillic-ext,greek,greek-ext,vietnamese}-{400,700}-normal.woff',
    'node_modules/@fontsource/noto-sans-math/files/*-latin-400-normal.woff',
    'node_modules/better-sqlite3/package.json',
    'node_modules/better-sqlite3/LICENSE',
    'node_modules/better-sqlite3/lib/**',
    `node_modules/better-sqlite3/prebuilds/${platform}-\${arch}.node`,
  ];
}

/** Shut for good in the binary itself; WebAssembly's trap handlers stay on, as Electron has them. */
export const FUSES = {
  runAsNode: false,
  enableCookieEncryption: false,
  enableNodeOptionsEnvironmentVariable: false,
  enableNodeCliInspectArguments: false,
  enableEmbeddedAsarIntegrityValidation: true,
  onlyLoadAppFromAsar: true,
  loadBrowserProcessSpecificV8Snapshot: false,
  grantFileProtocolExtraPrivileges: false,
};

const COMMON = {
  appId: 'org.evenrun.Evenrun',
  productName: 'Evenrun',
  copyright: 'The Evenrun developers, MIT licence',
  directories: { output: 'release', buildResources: 'electron/build/resources' },
  asar: true,
  // A thread reads the solver's WebAssembly as a file.
  asarUnpack: ['**/*.node', 'node_modules/highs/**'],
  // The native module comes ready for Node-API; there is nothing to rebuild.
  npmRebuild: false,
  nodeGypRebuild: false,
  publish: null,
  // A .deb must name a home page; until there is one, a name that can never be anyone's.
  extraMetadata: { homepage: 'https://evenrun.example/' },
  electronFuses: FUSES,
  // Windows and macOS know a file by what follows its last dot, so beside `.evenrun.json` there is plain `.evenrun`.
  fileAssociations: [
    {
      ext: ['evenrun', 'evenrun.json'],
      name: 'Evenrun header',
      description: 'Evenrun header',
      mimeType: 'application/vnd.evenrun.header+json',
      role: 'Editor',
    },
  ],
  linux: {
    target: ['AppImage', 'deb'],
    category: 'Engineering',
    icon: 'icon.png',
    synopsis: 'Match the primaries of hand-built exhaust headers',
  },
  deb: { maintainer: 'The Evenrun developers <evenrun@localhost>' },
  mac: {
    target: ['dmg'],
    category: 'public.app-category.productivity',
    icon: 'icon.png',
    minimumSystemVersion: '13.0',
  },
  win: { target: ['nsis'], icon: 'icon.png' },
  nsis: {
    oneClick: false,
    perMachine: false,
    allowToChangeInstallationDirectory: true,
    deleteAppDataOnUninstall: false,
  },
} satisfies Configuration;

/** A configuration of its own for each build: the builder writes into what it is given. */
export function packageConfigFor(platform: PackagedPlatform) {
  return { ...structuredClone(COMMON), files: packagedFiles(platform) };
}
