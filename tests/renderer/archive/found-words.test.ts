/** What the archive says it has found. */

import { expect, test } from 'vitest';
import { foundWords } from '../../../renderer/archive/found-words.ts';
import type { Found } from '../../../renderer/archive/use-archive.ts';

const NONE = { rows: [], count: 0, like: null, words: null } as const;
const ROWS = [{}, {}] as unknown as NonNullable<Found['rows']>;
const LIKE = { name: 'Oval' } as NonNullable<Found['like']>;

test.each([
  ['before the first answer nothing', { ...NONE, rows: null }, false, ''],
  ['why it could not be read', { ...NONE, words: 'The disk is full.' }, true, 'The disk is full.'],
  ['all that there are', { ...NONE, rows: ROWS, count: 2 }, false, '2 finished headers.'],
  ['the first of more', { ...NONE, rows: ROWS, count: 3 }, true, '3 finished headers, the first 2 shown.'],
  ['a search without a match', NONE, true, 'No finished header matches. Clear a field to find more.'],
  [
    'the only finished header has none beside it, and is finished',
    { ...NONE, like: LIKE },
    false,
    'No other header is finished yet that could be like Oval.',
  ],
] as const)('%s', (_what, found, isSearching, words) => {
  expect(foundWords(found, isSearching)).toBe(words);
});

test('of an empty archive, how a header comes into it', () => {
  expect(foundWords(NONE, false)).toMatch(/^Nothing is finished yet\./);
});
