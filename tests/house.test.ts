/** The house in figures: how many files a room holds, how long modules and functions are, which arrows run back. Printed at every check. */

import { posix } from 'node:path';
import { expect, test } from 'vitest';
import { findCircle, importFault } from './architecture-rules.ts';
import { readSources, type SourceFile } from './source-files.ts';

const FILES_A_FOLDER = 16;
const FUNCTION_LINES = 40;

/** Functions of core and electron that are one algorithm each and read worse in parts; a file's reason stands beside it. */
const KERNELS: Readonly<Record<string, string>> = {};

const sources = readSources().filter(({ path }) => !path.startsWith('tests/'));

/** How many source files stand in each folder itself, the fullest first. */
function filesByFolder(files: readonly SourceFile[]): readonly (readonly [folder: string, count: number])[] {
  const counts = new Map<string, number>();
  for (const { path } of files) counts.set(posix.dirname(path), (counts.get(posix.dirname(path)) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a);
}

const folders = filesByFolder(sources);
const longFunctions = sources
  .filter(({ path }) => /^(?:core|electron)\//.test(path))
  .flatMap(({ path, functions }) => functions.map(({ line, lineCount }) => ({ path, line, lineCount })))
  .filter(({ lineCount }) => lineCount > FUNCTION_LINES);
const backArrows = sources.flatMap(({ path, imports }) =>
  imports.filter((stated) => importFault(path, stated) !== null),
);
const circle = findCircle(sources);

function printHouse(): void {
  const bySize = [...sources].sort((a, b) => a.lineCount - b.lineCount);
  const median = bySize[Math.floor(bySize.length / 2)];
  const largest = bySize.at(-1);
  const lines = [
    `The house: ${sources.length} source files in ${folders.length} folders, ${sources.reduce((sum, { lineCount }) => sum + lineCount, 0)} lines`,
    `  fullest folders: ${folders
      .slice(0, 5)
      .map(([folder, count]) => `${folder} ${count}`)
      .join(', ')} (at most ${FILES_A_FOLDER})`,
    `  modules: median ${median?.lineCount} lines, largest ${largest?.lineCount} (${largest?.path})`,
    `  back arrows: ${backArrows.length}, circles: ${circle === null ? 0 : circle.join(' -> ')}`,
    `  functions over ${FUNCTION_LINES} lines in core and electron: ${longFunctions.length}, kernels among them: ${Object.keys(KERNELS).length}`,
    ...Object.entries(KERNELS).map(([path, reason]) => `    ${path}: ${reason}`),
  ];
  console.log(lines.join('\n'));
}

test('a folder holds at most 16 source files', () => {
  printHouse();
  expect(folders.length).toBeGreaterThan(30);
  expect(folders.filter(([, count]) => count > FILES_A_FOLDER)).toEqual([]);
});

test('in core and electron no function is longer than 40 lines, but for the kernels named here', () => {
  const unnamed = longFunctions.filter(({ path }) => !Object.hasOwn(KERNELS, path));
  expect(unnamed.map(({ path, line, lineCount }) => `${path}:${line}: ${lineCount} lines`)).toEqual([]);
});

test('every kernel named here still has a long function', () => {
  const long = new Set(longFunctions.map(({ path }) => path));
  expect(Object.keys(KERNELS).filter((path) => !long.has(path))).toEqual([]);
});
