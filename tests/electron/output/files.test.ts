/** Files that leave the program: writing that is whole or not at all, a small log. */

import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { fileLog, wordsOf } from '../../../electron/output/file-log.ts';
import { writeFileAtomically } from '../../../electron/output/write-file-atomically.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenrun-files-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('writing', () => {
  test('gives the file its whole new content, and leaves nothing else', () => {
    const file = join(folder, 'a.json');
    writeFileSync(file, 'old');
    writeFileAtomically(file, 'new');
    expect([readFileSync(file, 'utf8'), readdirSync(folder)]).toEqual(['new', ['a.json']]);
  });

  test('that fails leaves what was there, and nothing halfway', () => {
    const file = join(folder, 'a.json');
    // A folder that is not empty cannot be replaced by a file: the last step fails.
    mkdirSync(join(file, 'inside'), { recursive: true });
    expect(() => writeFileAtomically(file, 'new')).toThrow();
    expect([readdirSync(folder), readdirSync(file)]).toEqual([['a.json'], ['inside']]);
    expect(() => writeFileAtomically(join(folder, 'missing', 'a'), 'new')).toThrow(/ENOENT/);
  });
});

describe('the log', () => {
  test('is lines of JSON, and stays small', () => {
    const file = join(folder, 'evenrun.log');
    const log = fileLog(file, () => new Date('2026-03-01T08:00:00Z'));
    for (let n = 0; n < 300; n += 1) log.write({ n, text: `one\nline ${'x'.repeat(4000)}` });
    const lines = readFileSync(file, 'utf8')
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(lines.at(-1)).toMatchObject({ at: '2026-03-01T08:00:00.000Z', n: 299 });
    expect(readdirSync(folder).sort()).toEqual(['evenrun.log', 'evenrun.log.1']);
    expect(statSync(file).size + statSync(`${file}.1`).size).toBeLessThan(1_100_000);
  });

  test('that cannot be written does not stop the program', () => {
    writeFileSync(join(folder, 'file'), '');
    expect(() => fileLog(join(folder, 'file', 'log'), () => new Date()).write({ a: 1 })).not.toThrow();
  });

  test('tells what was thrown, and what caused it', () => {
    const words = wordsOf(new Error('outer', { cause: new TypeError('inner') }));
    expect(words).toMatch(/outer[\s\S]*caused by[\s\S]*inner/);
    expect(wordsOf('just text')).toBe('just text');
  });
});
