/** The stage follows an edit at once, and the piece in hand once the hand rests. */

import { expect, test } from 'vitest';
import { newHeader } from '../../../core/index.ts';
import { restMs } from '../../../renderer/bench/layout/stage-rest.ts';

const header = newHeader({ id: 'h', name: 'Shown' });
const before = { header, preview: null, primaryId: 'one', pieceId: 'a' };
/** Between two keys of an arrow that is held down, at 30 in a second. */
const REPEAT_MS = 34;
/** What still feels at once (common practice). */
const AT_ONCE_MS = 100;

test('another piece in hand waits longer than for the next key, and less than is felt', () => {
  for (const now of [
    { ...before, pieceId: 'b' },
    { ...before, primaryId: 'two', pieceId: null },
  ]) {
    expect(restMs(before, now)).toBeGreaterThan(REPEAT_MS);
    expect(restMs(before, now)).toBeLessThan(AT_ONCE_MS);
  }
});

test('an edit and a move that is looked at do not wait, whatever piece is in hand then', () => {
  expect(restMs(before, { ...before, header: { ...header }, pieceId: 'b' })).toBe(0);
  expect(restMs(before, { ...before, preview: { ...header } })).toBe(0);
});
