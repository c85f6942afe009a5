/** Headers that begin. */

import { expect, test } from 'vitest';
import { applyEdit, checkHeader, copyHeader, demoHeader, newHeader, newId } from '../../../core/index.ts';
import { bigHeader } from '../../generators/headers.ts';
import { seededRandom } from '../../trust/seeded-random.ts';

test('a new header is valid, open and empty', () => {
  const header = newHeader({ id: 'a', name: 'New' });
  expect(checkHeader(header)).toEqual({ ok: true, value: header });
  expect([header.state, header.primaries.length]).toEqual(['open', 0]);
});

test('a copy of a finished header is open, under its own id and name, and otherwise the same', () => {
  const finished = applyEdit(demoHeader('demo'), { kind: 'finishHeader' });
  if (!finished.ok) throw new Error('not finished');
  const copy = copyHeader(finished.value.header, { id: 'b', name: 'Copy' });
  expect(copy).toEqual({ ...demoHeader('b'), name: 'Copy' });
});

test('ids are valid, differ, and come out the same for the same random numbers', () => {
  const random = seededRandom(1);
  const ids = Array.from({ length: 10_000 }, () => newId(random));
  expect(new Set(ids).size).toBe(10_000);
  expect(ids.every((id) => /^[0-9a-z]{16}$/.test(id))).toBe(true);
  expect(newId(seededRandom(1))).toBe(ids[0]);
  expect(newId(() => 0.999_999_999)).toBe('z'.repeat(16));
});

test('the big header for tests is valid at any size', () => {
  const big = bigHeader(8, 20);
  expect(checkHeader(big).ok).toBe(true);
  expect(big.primaries.flatMap((primary) => primary.pieces).length).toBe(160);
});
