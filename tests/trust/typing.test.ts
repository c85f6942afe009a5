/** R20 at the size that fits into every test run. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { ENDINGS, openTypingDesk, type TypingDesk } from './never-lose-typing.ts';
import { QUICK_STRIDE } from './typing-measures.ts';

let desk: TypingDesk;
beforeAll(async () => {
  desk = await openTypingDesk();
});
afterAll(async () => await desk.end());

test.each(ENDINGS)('R20: nothing typed is lost when the page ends by %s', async (ending) => {
  const { cases, lostEntries, lostTexts } = await desk.breakOffAt(ending, QUICK_STRIDE);
  expect([...lostEntries, ...lostTexts]).toEqual([]);
  expect(cases).toBeGreaterThanOrEqual(3);
});
