/** File names that every system takes. */

import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { safeFileName } from '../../../core/header/file-name.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenrun-names-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('file names', () => {
  test.each([
    ['Hill-climb four', 'Hill-climb four.csv'],
    ['../../etc/passwd', 'etc passwd.csv'],
    ['a/b\\c:d*e?f"g<h>i|j', 'a b c d e f g h i j.csv'],
    ['con', '_con.csv'],
    ['COM1.old', '_COM1.old.csv'],
    ['.hidden', 'hidden.csv'],
    ['ends. . ', 'ends.csv'],
    ['   ', 'untitled.csv'],
    ['\u202egpj.exe', 'gpj.exe.csv'],
    ['Krümmer Nº 4', 'Krümmer Nº 4.csv'],
  ])('%j gives %j', (name, wanted) => expect(safeFileName(name, '.csv')).toBe(wanted));

  test('whatever the name, a file of it can be made in its folder and found there', () => {
    const name = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 120 }),
      fc.string({ unit: fc.constantFrom(...'./\\ :\0\n管é'), maxLength: 120 }),
      fc.string({ unit: 'grapheme', minLength: 100, maxLength: 120 }),
    );
    fc.assert(
      fc.property(name, (text) => {
        const made = safeFileName(text, '.evenrun.json');
        expect(Buffer.byteLength(made)).toBeLessThanOrEqual(200);
        expect(basename(made)).toBe(made);
        expect(made).not.toMatch(/^[. ]|[. ]$/);
        writeFileSync(join(folder, made), '');
        expect(existsSync(join(folder, made))).toBe(true);
      }),
      { numRuns: 2000, seed: 4 },
    );
    expect(readdirSync(folder).length).toBeGreaterThan(500);
  });
});
