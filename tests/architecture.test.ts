/** The house keeps its shape: arrows, sizes, names, and what stands nowhere in the source. */

import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Edit } from '../core/edits/edit.ts';
import { CORE_PACKAGES, findCircle, importFault, RENDERER_ARROWS } from './architecture-rules.ts';
import { filesBelow, parseSource, ROOT, readSources } from './source-files.ts';

const FILE_LINES = { warn: 250, fail: 400 } as const;
const FUNCTION_LINES = { warn: 40, fail: 60 } as const;

const sources = readSources();
const product = sources.filter(({ path }) => !path.startsWith('tests/'));
const allImports = sources.flatMap(({ path, imports }) => imports.map((stated) => ({ path, stated })));

/** Lines for people about what is near its limit; shown, not failed. */
function warn(title: string, lines: readonly string[]): void {
  if (lines.length > 0) console.warn(`${title}:\n  ${lines.join('\n  ')}`);
}

test('the sources were found', () => {
  expect(product.length).toBeGreaterThan(50);
  expect(allImports.length).toBeGreaterThan(200);
});

describe('arrows', () => {
  test('no import goes against them', () => {
    const faults = allImports.flatMap(({ path, stated }) => {
      const fault = importFault(path, stated);
      return fault === null ? [] : [`${path} -> ${stated.specifier}: ${fault}`];
    });
    expect(faults).toEqual([]);
  });

  test('core uses every package on its list, each stands there with its reason, and each comes with the program', () => {
    const used = new Set(
      allImports
        .filter(({ path, stated }) => path.startsWith('core/') && stated.target === null)
        .map(({ stated }) => stated.specifier),
    );
    const { dependencies } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
      readonly dependencies: Readonly<Record<string, string>>;
    };
    expect([...CORE_PACKAGES.keys()].sort()).toEqual([...used].sort());
    for (const [name, reason] of CORE_PACKAGES) {
      expect(reason, name).toMatch(/^.{20,}$/);
      expect(dependencies, name).toHaveProperty(name);
    }
  });

  test('no imports run in a circle', () => {
    expect(findCircle(sources)).toBeNull();
  });

  test('every relative import names an existing file with its ending', () => {
    const faults = allImports.filter(({ stated }) => {
      if (stated.target === null) return false;
      const target = stated.target.split('?', 1)[0] ?? '';
      return !/\.(?:tsx?|css|svg|json|mjs)$/.test(target) || !existsSync(join(ROOT, target));
    });
    expect(faults.map(({ path, stated }) => `${path} -> ${stated.specifier}`)).toEqual([]);
  });

  test('the only barrel is the face of core', () => {
    const barrels = sources.filter(({ path, imports }) => {
      const passedOn = new Set(imports.filter((one) => one.isReExport).map((one) => one.specifier));
      return path !== 'core/index.ts' && passedOn.size > 1;
    });
    expect(barrels.map(({ path }) => path)).toEqual([]);
  });
});

/** Every kind of edit; one that is missing here does not compile. */
const EDIT_KINDS: Readonly<Record<Edit['kind'], true>> = {
  setHeader: true,
  setSettings: true,
  addPrimary: true,
  removePrimary: true,
  movePrimary: true,
  setPrimary: true,
  setMeasured: true,
  setTolerances: true,
  setEngine: true,
  addPiece: true,
  removePiece: true,
  movePiece: true,
  replacePiece: true,
  addCollector: true,
  removeCollector: true,
  replaceCollector: true,
  addObstacle: true,
  removeObstacle: true,
  replaceObstacle: true,
  finishHeader: true,
  reopenHeader: true,
  batch: true,
};

test('edits are built in core alone', () => {
  const made = new RegExp(`\\bkind: '(?:${Object.keys(EDIT_KINDS).join('|')})'`);
  const builders = product.filter(({ text }) => made.test(text));
  const strangers = builders.filter(({ path }) => !/^core\/(?:edits|moves)\//.test(path));
  expect(strangers.map(({ path }) => path)).toEqual([]);
  expect(builders.length).toBeGreaterThan(5);
});

/** Promised to whoever builds on core, though the program itself goes by what is made of them. */
const PROMISED = new Set([
  'clearanceBetween',
  'closureOf',
  'fromLra',
  'fromXyz',
  'mirrorPrimary',
  'proposePrimaries',
  'readHeader',
  'speedOfSound',
  'suggestHeaderMoves',
  'suggestMoves',
  'tracePrimary',
]);

/** The names between the braces of `import` or `export` statements that name core's face, or are in it. */
function namesIn(text: string, statement: RegExp): readonly string[] {
  return [...text.matchAll(statement)].flatMap(([, names = '']) =>
    names.split(',').flatMap((name) => name.trim().replace(/^type /, '') || []),
  );
}

test("nothing stands on core's face that nobody outside it needs", () => {
  const face = namesIn(readFileSync(join(ROOT, 'core/index.ts'), 'utf8'), /^export (?:type )?\{([^}]*)\} from/gm);
  const users = product.filter(({ path }) => !path.startsWith('core/'));
  const used = new Set(
    users.flatMap(({ text }) => namesIn(text, /^import (?:type )?\{([^}]*)\} from '[./]*core\/index\.ts'/gm)),
  );
  expect(face.length).toBeGreaterThan(100);
  expect(face.filter((name) => !used.has(name) && !PROMISED.has(name))).toEqual([]);
  expect([...PROMISED].filter((name) => !face.includes(name))).toEqual([]);
});

describe('sizes', () => {
  test('no file is longer than 400 lines', () => {
    const long = sources.filter(({ lineCount }) => lineCount > FILE_LINES.warn);
    warn(
      'Files to look at',
      long.map(({ path, lineCount }) => `${path}: ${lineCount} lines`),
    );
    expect(long.filter(({ lineCount }) => lineCount > FILE_LINES.fail).map(({ path }) => path)).toEqual([]);
  });

  test('no function is longer than 60 lines', () => {
    const long = sources
      .filter(({ path }) => !/\.test\.tsx?$/.test(path))
      .flatMap(({ path, functions }) => functions.map((one) => ({ where: `${path}:${one.line}`, ...one })))
      .filter(({ lineCount }) => lineCount > FUNCTION_LINES.warn);
    warn(
      'Functions to look at',
      long.map(({ where, lineCount }) => `${where}: ${lineCount} lines`),
    );
    expect(long.filter(({ lineCount }) => lineCount > FUNCTION_LINES.fail).map(({ where }) => where)).toEqual([]);
  });
});

describe('manners', () => {
  test('exports are named', () => {
    const faults = sources.filter(({ path, hasDefaultExport }) => hasDefaultExport && !path.endsWith('.config.ts'));
    expect(faults.map(({ path }) => path)).toEqual([]);
  });

  test('a file opens with a sentence on what lives there', () => {
    const faults = product.filter(({ text }) => !/^\/\*\*[^*]/.test(text));
    expect(faults.map(({ path }) => path)).toEqual([]);
  });

  test('files are named in kebab-case, and for what they hold', () => {
    const faults = filesBelow('core')
      .concat(filesBelow('electron'), filesBelow('renderer'), filesBelow('tests'))
      .filter((path) => !path.includes('__snapshots__') && !path.endsWith('/README.md'))
      .filter((path) =>
        /[A-Z ]|(?:^|[/-])(?:utils?|helpers?|manager|misc|common)(?:[-.]|$)/.test(path.split('/').at(-1) ?? ''),
      );
    expect(faults).toEqual([]);
  });
});

/** Everything that is text and ours, also what is not TypeScript. */
const texts = ['core', 'electron', 'renderer', 'tests', 'fixtures', '.ci']
  .flatMap(filesBelow)
  .concat(['package.json', 'README.md', 'DEVELOPERS.md', '.biome.json', 'tsconfig.json'])
  .filter((path) => /\.(?:tsx?|mjs|css|html|json|md|svg|csv|sql)$|^\.ci\//.test(path) && existsSync(join(ROOT, path)))
  .map((path) => ({ path, text: readFileSync(join(ROOT, path), 'utf8') }));

function pathsWith(pattern: RegExp, among = texts): readonly string[] {
  return among.filter(({ text }) => pattern.test(text)).map(({ path }) => path);
}

describe('what stands nowhere', () => {
  test('an insecure address, but for this machine and the names of XML', () => {
    expect(pathsWith(/http:\/\/(?!127\.0\.0\.1|localhost|www\.w3\.org\/)[^'"`\s]|\bws:\/\//, texts)).toEqual([]);
  });

  test('a path of the machine that it was written on', () => {
    expect(pathsWith(/['"`(\s]\/(?:work|root|tmp)\//)).toEqual([]);
  });

  test('a page loaded from a file, a web view, or a lifted sandbox in the product', () => {
    const code = product.map(({ path, text }) => ({ path, text }));
    expect(
      pathsWith(/\.loadFile\(|file:\/\/|<webview|no-sandbox|openExternal|allowRunningInsecureContent: true/, code),
    ).toEqual([]);
  });

  test('a second door for messages from the page', () => {
    expect(pathsWith(/ipcMain\s*\.\s*(?:on|once|handle|handleOnce)\b/, product)).toEqual([
      'electron/shell/bridge-ipc.ts',
    ]);
  });

  test('an insecure address, code made from text, or an inline script in the built page', () => {
    const built = filesBelow('dist/renderer')
      .filter((path) => /\.(?:js|css|html)$/.test(path))
      .map((path) => ({ path, text: readFileSync(join(ROOT, path), 'utf8') }));
    expect(built.length).toBeGreaterThan(2);
    // The names of XML and of JSON Schema look like addresses, and are never asked for.
    expect(pathsWith(/http:\/\/(?!www\.w3\.org\/|json-schema\.org\/)\w|\bwss?:\/\//, built)).toEqual([]);
    expect(pathsWith(/\bnew Function\b|[^.\w]eval\(/, built)).toEqual([]);
    const pages = built.filter(({ path }) => path.endsWith('.html'));
    expect(pathsWith(/<script(?![^>]*\bsrc=)[^>]*>|\bon\w+=|<style|\bstyle=/, pages)).toEqual([]);
  });
});

describe('the rules themselves bite', () => {
  const fault = (path: string, code: string) => parseSource(path, code).imports.map((one) => importFault(path, one));

  test.each([
    ['core/units/x.ts', "import { a } from '../header/header.ts';"],
    ['core/units/x.ts', "import type { A } from '../header/header.ts';"],
    ['core/header/x.ts', "import { a } from '../length/piece-length.ts';"],
    ['core/header/x.ts', "import { readFileSync } from 'node:fs';"],
    ['core/header/x.ts', "type A = import('../../electron/bridge/contract.ts').HostEvent;"],
    ['core/header/x.ts', "const a = await import('react');"],
    ['core/header/x.ts', "import { sum } from 'd3';"],
    ['core/header/x.ts', "import Papa from 'papaparse';"],
    ['electron/output/x.ts', "import Papa from 'papaparse';"],
    ['core/path/x.ts', "import { visit } from 'jsonc-parser';"],
    ['core/spreadsheet/x.ts', "import { a } from '../header/header.ts';"],
    ['electron/store/x.ts', "import { a } from '../../renderer/bridge.ts';"],
    ['electron/store/x.ts', "import { app } from 'electron';"],
    ['electron/shell/x.ts', "import Database from 'better-sqlite3';"],
    ['electron/bridge/x.ts', "import { a } from '../store/backend.ts';"],
    ['renderer/x.ts', "import { contract } from '../electron/bridge/contract.ts';"],
    ['renderer/x.ts', "import type { A } from '../electron/store/backend.ts';"],
    ['renderer/host/x.ts', "import { CALL_NAMES } from '../../electron/bridge/call-names.ts';"],
    ['renderer/x.ts', "import { join } from 'node:path';"],
    ['renderer/ui/x.tsx', "import type { HeaderSession } from '../session/header-session.ts';"],
    ['renderer/ui/fields/x.tsx', "import { askHost } from '../../host/host-bridge.ts';"],
    ['renderer/session/x.ts', "import { Bar } from '../app/bar.tsx';"],
    ['renderer/shelf/x.tsx', "import { HeaderList } from '../headers/header-list.tsx';"],
    ['renderer/headers/importing/x.tsx', "import '../../shelf/shelf.css';"],
    ['renderer/moves/x.ts', "type A = import('../bench/bench-view.ts').BenchView;"],
    ['renderer/help/x.tsx', "const a = await import('../shape/shape-panels.tsx');"],
    ['renderer/board/x.ts', "import { describeScene } from '../view/scene/describe-scene.ts';"],
    ['renderer/bench/x.ts', "import type { Workshop } from '../app/use-workshop.ts';"],
    ['renderer/new-room/x.ts', "import { Button } from '../ui/button.tsx';"],
    ['renderer/ui/x.ts', "import { start } from '../main.tsx';"],
    ['renderer/x.tsx', "import '../renderer/shelf/shelf.css';"],
    ['renderer/bench/x.ts', "import { a } from '../../core/edits/apply-edit.ts';"],
    ['electron/bridge/x.ts', "import type { A } from '../../core/header/header.ts';"],
  ])('%s may not say %s', (path, code) => {
    expect(fault(path, code)).toEqual([expect.any(String)]);
  });

  test.each([
    ['core/moves/x.ts', "import { a } from '../stock/shelf-match.ts';"],
    ['core/header/x.ts', "import * as z from 'zod';"],
    ['core/spreadsheet/x.ts', "import Papa from 'papaparse';"],
    ['core/moves/x.ts', "import FlatQueue from 'flatqueue';"],
    ['renderer/x.ts', "import type { HostBridge } from '../electron/bridge/contract.ts';"],
    ['renderer/commands/x.ts', "import { COMMANDS } from '../../electron/bridge/commands.ts';"],
    ['renderer/x.tsx', "import './ui/theme.css';"],
    ['renderer/bench/grid/x.tsx', "import { BenchScreen } from '../bench-screen.tsx';"],
    ['renderer/bench/x.tsx', "const a = await import('../shape/shape-panels.tsx');"],
    ['renderer/app/opening/x.ts', "import type { HeaderSession } from '../../session/header-session.ts';"],
    ['electron/main.ts', "import { app } from 'electron';"],
  ])('%s may say %s', (path, code) => {
    expect(fault(path, code)).toEqual([null]);
  });

  test.each([
    "import { a } from './a.ts';",
    "import type { a } from './a.ts';",
    "type A = import('./a.ts').A;",
    "export type { a } from './a.ts';",
  ])('a circle is found by %s', (second) => {
    const files = [parseSource('core/a.ts', "import { b } from './b.ts';"), parseSource('core/b.ts', second)];
    expect(findCircle(files)).toEqual(['core/a.ts', 'core/b.ts', 'core/a.ts']);
  });

  test('a file used by two is no circle', () => {
    const uses = (path: string, ...used: readonly string[]) =>
      parseSource(path, used.map((name) => `import type { ${name} } from './${name}.ts';`).join('\n'));
    expect(findCircle([uses('core/a.ts', 'b', 'c'), uses('core/b.ts', 'c'), uses('core/c.ts')])).toBeNull();
  });

  test('every room of the page has its arrows, and they run one way', () => {
    const rooms = new Set(product.flatMap(({ path }) => /^renderer\/([^/]+)\//.exec(path)?.[1] ?? []));
    const table = Object.keys(RENDERER_ARROWS).filter((room) => room !== '');
    expect(table.toSorted()).toEqual([...rooms].toSorted());
    const asFiles = Object.entries(RENDERER_ARROWS).map(([room, used]) =>
      parseSource(`renderer/${room}.ts`, used.map((other) => `import './${other}.ts';`).join('\n')),
    );
    expect(findCircle(asFiles)).toBeNull();
  });

  test('the length of a function is counted', () => {
    const { functions } = parseSource('core/a.ts', 'export const f = () => {\n\n\n};\nfunction g() {}\n');
    expect(functions).toEqual([
      { line: 1, lineCount: 4 },
      { line: 5, lineCount: 1 },
    ]);
  });
});
