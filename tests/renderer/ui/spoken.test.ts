/** Counts, times, sizes and the save mark in words. */

import { expect, test } from 'vitest';
import { otherUnit } from '../../../renderer/app/commands/display-unit.ts';
import { saveWords } from '../../../renderer/app/save-mark-line.tsx';
import { bytesToBase64 } from '../../../renderer/host/files.ts';
import { countOf, showBytes, showDay, showTime } from '../../../renderer/ui/words/spoken.ts';

test('one is singular, everything else plural', () => {
  expect([0, 1, 2, 1200].map((count) => countOf(count, 'piece'))).toEqual([
    '0 pieces',
    '1 piece',
    '2 pieces',
    '1,200 pieces',
  ]);
  expect(countOf(4, 'primary', 'primaries')).toBe('4 primaries');
});

test('a day is shown with its month in letters, so that nobody reads it the wrong way round', () => {
  expect(showDay('2026-03-04T12:00:00.000Z')).toBe('4 Mar 2026');
  expect(showTime('2026-03-04T12:00:00.000Z')).toMatch(/^4 Mar 2026, \d\d:\d\d$/);
});

test('a label that is no time is shown as it came', () => {
  expect(showTime('yesterday')).toBe('yesterday');
  expect(showDay('')).toBe('');
});

test('sizes are in decimal units and never 0 for a file with something in it', () => {
  expect([0, 1, 40_000, 1_240_000].map(showBytes)).toEqual(['0 kB', '1 kB', '40 kB', '1.2 MB']);
});

test('the save mark says the reason, and saved only when saved', () => {
  expect(saveWords({ kind: 'saved' })).toBe('All saved');
  expect(saveWords({ kind: 'saving' })).toBe('Saving…');
  expect(saveWords({ kind: 'notSaved', reason: 'The disk is full.' })).toBe('Not saved: The disk is full.');
});

test('base64 of bytes is that of the platform, across the chunk size', () => {
  for (const length of [0, 1, 2, 3, 0x7fff, 0x8000, 0x8001, 100_003]) {
    const bytes = Uint8Array.from({ length }, (_, at) => (at * 31 + 7) % 256);
    expect(bytesToBase64(bytes)).toBe(Buffer.from(bytes).toString('base64'));
  }
});

test('switching the unit twice comes back to inches', () => {
  const mm = otherUnit({ kind: 'fraction', per: 16 });
  expect(mm.kind).toBe('mm');
  expect(otherUnit(mm)).toEqual({ kind: 'fraction', per: 16 });
  expect(otherUnit({ kind: 'decimalInch', places: 3 }).kind).toBe('mm');
});
