/** Pages of the archive's answer below one another, while headers are finished meanwhile. */

import { expect, test } from 'vitest';
import type { ResponseOf } from '../../../electron/bridge/contract.ts';
import { foundAfter, NOTHING_YET } from '../../../renderer/archive/use-archive.ts';

type Answer = ResponseOf<'searchArchive'>;

const page = (ids: readonly string[], count: number): Answer => ({
  rows: ids.map((headerId) => ({ headerId })) as unknown as Answer['rows'],
  count,
  like: null,
});

test('a page stands below those before it, none twice, and there is more only where it was not asked for yet', () => {
  const first = foundAfter(NOTHING_YET, page(['c', 'b'], 3), { from: 0, most: 2 });
  expect([first.rows?.map(({ headerId }) => headerId), first.count > first.askedFor]).toEqual([['c', 'b'], true]);
  // One was finished meanwhile and moved the others on.
  const second = foundAfter(first, page(['b', 'a'], 4), { from: first.askedFor, most: 2 });
  expect(second.rows?.map(({ headerId }) => headerId)).toEqual(['c', 'b', 'a']);
  expect(second.count > second.askedFor).toBe(false);
});

test('rows and the header that they are like stay the same objects while they say the same', () => {
  const like = { headerId: 'x', name: 'X' } as NonNullable<Answer['like']>;
  const first = foundAfter(NOTHING_YET, { ...page(['b', 'a'], 2), like }, { from: 0, most: 8 });
  const again = foundAfter(first, { ...page(['a', 'b'], 2), like: { ...like } }, { from: 0, most: 8 });
  expect(again.rows?.[0]).toBe(first.rows?.[1]);
  expect(again.like).toBe(first.like);
  expect(again.problems).toBe(first.problems);
});
