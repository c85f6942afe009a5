/** Builds are made when a source is newer, and only then. */

import { mkdirSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, expect, test } from 'vitest';
import { isOlderThanSources } from '../../../electron/build/freshness.ts';
import { temporaryFolder } from '../../temporary-folder.ts';

let folder: string;
const at = (name: string) => join(folder, name);
const stale = () => isOlderThanSources(at('built.js'), [at('source'), at('lock.json')]);

/** Writes the file as if at the given second. */
function write(name: string, second: number): void {
  writeFileSync(at(name), name);
  utimesSync(at(name), second, second);
}

function setFolderTime(second: number): void {
  for (const name of ['source/deep', 'source']) utimesSync(at(name), second, second);
}

beforeEach(() => {
  folder = temporaryFolder('fresh');
  mkdirSync(at('source/deep'), { recursive: true });
  write('source/deep/a.ts', 100);
  write('lock.json', 100);
  write('built.js', 200);
  setFolderTime(100);
});

test('newer than all its sources is fresh', () => expect(stale()).toBe(false));

test('one deep source that is newer makes it stale', () => {
  write('source/deep/a.ts', 201);
  setFolderTime(100);
  expect(stale()).toBe(true);
});

test('a source that was removed makes it stale: its folder is newer', () => {
  setFolderTime(201);
  expect(stale()).toBe(true);
});

test('a file among the sources counts', () => {
  write('lock.json', 300);
  expect(stale()).toBe(true);
});

test('a source that is not there does not', () => {
  expect(isOlderThanSources(at('built.js'), [at('nowhere')])).toBe(false);
});

test('nothing built is stale', () => {
  expect(isOlderThanSources(at('missing.js'), [at('source')])).toBe(true);
});

test('what was looked at for one bundle is not looked at again for the next', () => {
  const looked = new Map<string, number>();
  const isStale = () => isOlderThanSources(at('built.js'), [at('source')], looked);
  expect(isStale()).toBe(false);
  write('source/deep/a.ts', 201);
  expect(isStale()).toBe(false);
  expect(isOlderThanSources(at('built.js'), [at('source')])).toBe(true);
});
