/** Every file in fixtures/refused gets a problem with a path and a plain sentence, and nothing is taken from it. */

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  describeProblem,
  newId,
  type Problem,
  readHeader,
  readHeaderBytes,
  readPartsRows,
} from '../../../../core/index.ts';
import { readCsv } from '../../../../electron/output/csv.ts';

const folder = new URL('../../../../fixtures/refused/', import.meta.url);
const headers = readdirSync(new URL('headers/', folder)).sort();
const parts = readdirSync(new URL('parts/', folder)).sort();

/** What the schema library would say by itself; none of it may reach a person. */
const FOREIGN_WORDS =
  /invalid input|expected .*received|unrecognized|too (big|small)|invalid (option|string|discriminator)|undefined|\[object|zod/i;

function expectPlain(problem: Problem): void {
  const sentence = describeProblem(problem);
  expect(sentence).toMatch(/^[A-Z"\u201c].{15,}[.\u2026]$/su);
  expect(sentence).not.toMatch(FOREIGN_WORDS);
  expect(sentence).not.toMatch(/[\p{Cc}\u202a-\u202e\u2066-\u2069]/u);
  expect(sentence.length).toBeLessThan(400);
}

describe('header files', () => {
  test.each(headers)('%s', (name) => {
    const result = readHeaderBytes(readFileSync(new URL(`headers/${name}`, folder)));
    expect(result.ok).toBe(false);
    if (result.ok) return;
    expect(result.problems.length).toBeGreaterThan(0);
    for (const problem of result.problems) {
      expect(Array.isArray(problem.path)).toBe(true);
      expectPlain(problem);
    }
    expect(Object.keys(Object.prototype)).toEqual([]);
    expect(({} as { readonly polluted?: unknown }).polluted).toBe(undefined);
  });

  test('a file of more than 10 MiB', () => {
    const result = readHeader(`{"format":"evenrun-header","version":1,"header":"${'x'.repeat(10 * 1024 * 1024)}"}`);
    expect(result.ok ? [] : result.problems.map(describeProblem)).toEqual([
      'The file is larger than 10 MiB, which no header or list is: check that it is the right one.',
    ]);
  });
});

describe('parts lists', () => {
  const read = (bytes: Uint8Array) => {
    const rows = readCsv(bytes);
    if (!rows.ok)
      return { primaries: [], refused: rows.problems.map((problem) => ({ line: 1, column: null, problem })) };
    return readPartsRows(rows.value, { unit: 'in', newId: () => newId(Math.random) });
  };

  test.each(parts)('%s', (name) => {
    const { primaries, refused } = read(readFileSync(new URL(`parts/${name}`, folder)));
    expect(refused.length).toBeGreaterThan(0);
    for (const { line, problem } of refused) {
      expect(line).toBeGreaterThan(0);
      expectPlain(problem);
    }
    // A list with a stray column still gives its rows; a refused row gives no piece.
    const isRowRefused = refused.some(({ line }) => line > 1);
    if (isRowRefused) expect(primaries.flatMap((primary) => primary.pieces)).toEqual([]);
  });

  test('a list of more than 10,000 rows', () => {
    const { refused } = read(new TextEncoder().encode(`primary,length\n${'1,2\n'.repeat(10_001)}`));
    expect(refused.map(({ problem }) => problem.kind)).toEqual(['tooMany']);
  });
});

test('the table of refused files names every file, and at least forty of them', () => {
  const listed = readFileSync(new URL('README.md', folder), 'utf8');
  const missing = [...headers, ...parts].filter((name) => !listed.includes(`| \`${name}\` |`));
  expect(missing).toEqual([]);
  expect(listed.split('\n').filter((line) => line.startsWith('| `')).length).toBe(headers.length + parts.length);
  expect(headers.length + parts.length).toBeGreaterThanOrEqual(40);
});
