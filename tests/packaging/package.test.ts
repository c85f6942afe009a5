/** The package as the builder makes it: what is in it, what is not, and which of Electron's doors are shut. */

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { extractFile, listPackage, statFile } from '@electron/asar';
import { FuseState, FuseV1Options, getCurrentFuseWire } from '@electron/fuses';
import { Arch, build, Platform } from 'electron-builder';
import type { Highs } from 'highs';
import { beforeAll, describe, expect, test } from 'vitest';
import { packageConfigFor } from '../../electron/build/package-config.ts';
import { readFontFiles } from '../../electron/output/pages/font-files.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { makeElectronStandIn } from './electron-stand-in.ts';

const packageConfig = packageConfigFor('linux');
const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const ARCHS = { x64: Arch.x64, arm64: Arch.arm64 } as const;

interface Packed {
  readonly folder: string;
  readonly asar: string;
  /** Paths with forward slashes, files only. */
  readonly files: readonly string[];
}

async function pack(arch: keyof typeof ARCHS): Promise<Packed> {
  const output = temporaryFolder('package');
  await build({
    projectDir: ROOT,
    targets: Platform.LINUX.createTarget('dir', ARCHS[arch]),
    publish: 'never',
    config: {
      ...packageConfigFor('linux'),
      directories: { ...packageConfig.directories, output },
      electronDist: makeElectronStandIn(),
    },
  });
  const [made] = readdirSync(output).filter((name) => name.startsWith('linux'));
  if (made === undefined) throw new Error(`Nothing was made in ${output}`);
  const folder = join(output, made);
  const asar = join(folder, 'resources', 'app.asar');
  const files = listPackage(asar, { isPack: false })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => !('files' in statFile(asar, path.slice(1))));
  return { folder, asar, files };
}

let packed: Packed;

beforeAll(async () => {
  packed = await pack('x64');
}, 120_000);

describe('inside', () => {
  test('the built parts are there', () => {
    expect(packed.files).toEqual(
      expect.arrayContaining([
        '/dist/renderer/index.html',
        '/dist/shell/main.cjs',
        '/dist/preload/preload.cjs',
        '/dist/reader/reader.cjs',
        '/dist/planner/planner.cjs',
        '/dist/drawer/drawer.cjs',
        '/package.json',
        '/LICENSE',
      ]),
    );
  });

  test('no sources, no maps, no types, no tests', () => {
    const strangers = packed.files.filter((path) => /\.(?:tsx?|map|tsbuildinfo|test\.\w+|md)$|^\/tests\//.test(path));
    expect(strangers).toEqual([]);
  });

  test('of all modules only the database, the solver and the typeface are there, and of them only what is used', () => {
    const modules = packed.files.filter((path) => path.startsWith('/node_modules/'));
    expect([...new Set(modules.map((path) => path.split('/')[2]))]).toEqual(['@fontsource', 'better-sqlite3', 'highs']);
    const partsOf = (name: string) =>
      [...new Set(modules.filter((path) => path.split('/')[2] === name).map((path) => path.split('/')[3]))].sort();
    expect(partsOf('better-sqlite3')).toEqual(['LICENSE', 'lib', 'package.json', 'prebuilds']);
    expect(partsOf('highs')).toEqual(['LICENSE', 'build', 'package.json']);
    const inPackage = (name: string) => packed.files.some((path) => path.endsWith(`/${name}.woff`));
    const fonts = readFontFiles(join(ROOT, 'package.json'));
    const wanted = [...new Set([...fonts.plain, ...fonts.bold].map(({ name }) => `${name}-normal`))];
    expect(wanted.filter((name) => !inPackage(name))).toEqual([]);
    expect(modules.filter((path) => path.endsWith('.woff'))).toHaveLength(wanted.length);
    for (const name of ['atkinson-hyperlegible-next', 'noto-sans', 'noto-sans-math'])
      expect(modules).toContain(`/node_modules/@fontsource/${name}/LICENSE`);
  });

  test('the package file names the main file and carries no scripts', () => {
    const described = JSON.parse(extractFile(packed.asar, 'package.json').toString()) as Record<string, unknown>;
    expect(described).toMatchObject({ name: 'evenrun', main: 'dist/shell/main.cjs' });
    expect(described).not.toHaveProperty('scripts');
    expect(described).not.toHaveProperty('devDependencies');
  });

  test('it stays small: less than 12 MiB', () => {
    expect(readFileSync(packed.asar).length).toBeLessThan(12 * 2 ** 20);
  });
});

describe('the native module', () => {
  const nativeIn = (files: readonly string[]) => files.filter((path) => path.endsWith('.node'));

  test('is that of the target alone, and lies outside the archive', () => {
    expect(nativeIn(packed.files)).toEqual(['/node_modules/better-sqlite3/prebuilds/linux-x64.node']);
    const unpacked = join(`${packed.asar}.unpacked`, 'node_modules/better-sqlite3/prebuilds');
    expect(readdirSync(unpacked)).toEqual(['linux-x64.node']);
    expect(statFile(packed.asar, 'node_modules/better-sqlite3/prebuilds/linux-x64.node')).toMatchObject({
      unpacked: true,
    });
  });

  test.runIf(process.platform === 'linux' && process.arch === 'x64')('is the very file that these tests run on', () => {
    const file = 'node_modules/better-sqlite3/prebuilds/linux-x64.node';
    const inPackage = readFileSync(join(`${packed.asar}.unpacked`, file));
    expect(inPackage.equals(readFileSync(join(ROOT, file)))).toBe(true);
    expect(createRequire(import.meta.url)(join(`${packed.asar}.unpacked`, file))).toBeTypeOf('object');
  });

  test('another processor gets its own', async () => {
    const other = await pack('arm64');
    expect(nativeIn(other.files)).toEqual(['/node_modules/better-sqlite3/prebuilds/linux-arm64.node']);
  }, 120_000);
});

describe('the solver of cut plans', () => {
  test('lies outside the archive, where a thread finds it by the name that the program uses, and solves', async () => {
    const from = join(packed.asar, 'dist/main.js').replace('app.asar', 'app.asar.unpacked');
    const found = createRequire(from);
    expect(found.resolve('highs').startsWith(`${packed.asar}.unpacked`)).toBe(true);
    const highs = await (found('highs') as () => Promise<Highs>)();
    // Two bars of 5 for three pieces of 2: at most two a bar.
    const { Status, ObjectiveValue } = highs.solve(
      'Minimize\n bars: a + b\nSubject To\n all: x + y = 3\n first: 2 x - 5 a <= 0\n other: 2 y - 5 b <= 0\nGeneral\n x y\nBinary\n a b\nEnd',
    );
    expect([Status, ObjectiveValue]).toEqual(['Optimal', 2]);
  });
});

describe('fuses', () => {
  test('in the packed binary they stand as they should', async () => {
    const wire = await getCurrentFuseWire(join(packed.folder, 'evenrun'));
    const on = Object.values(FuseV1Options).filter(
      (fuse): fuse is FuseV1Options => typeof fuse === 'number' && wire[fuse] === FuseState.ENABLE,
    );
    expect(on.map((fuse) => FuseV1Options[fuse])).toEqual([
      'EnableEmbeddedAsarIntegrityValidation',
      'OnlyLoadAppFromAsar',
      'WasmTrapHandlers',
    ]);
  });

  test('in the configuration each is named', () => {
    expect(packageConfig.electronFuses).toEqual({
      runAsNode: false,
      enableCookieEncryption: false,
      enableNodeOptionsEnvironmentVariable: false,
      enableNodeCliInspectArguments: false,
      enableEmbeddedAsarIntegrityValidation: true,
      onlyLoadAppFromAsar: true,
      loadBrowserProcessSpecificV8Snapshot: false,
      grantFileProtocolExtraPrivileges: false,
    });
  });
});

describe('installers', () => {
  test('are made for the three systems', () => {
    expect([packageConfig.linux.target, packageConfig.mac.target, packageConfig.win.target]).toEqual([
      ['AppImage', 'deb'],
      ['dmg'],
      ['nsis'],
    ]);
  });

  test('open files of the program, and leave the data when they go', () => {
    expect(packageConfig.fileAssociations[0]?.ext).toEqual(['evenrun', 'evenrun.json']);
    expect(packageConfig.nsis.deleteAppDataOnUninstall).toBe(false);
  });

  test('nothing in the configuration lifts the sandbox', () => {
    expect(JSON.stringify(packageConfig)).not.toContain('no-sandbox');
    expect(existsSync(join(ROOT, packageConfig.directories.buildResources, packageConfig.linux.icon))).toBe(true);
  });
});
