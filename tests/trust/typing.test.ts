/** R20 at the size that fits into every test run. */

import { expect, test } from 'vitest';
import { TYPING_RUN } from './typing-measures.ts';

test('R20: nothing typed is lost, however the page ends', async () => {
  const measures = await TYPING_RUN.run('quick');
  expect(measures.filter(({ ok }) => !ok)).toEqual([]);
}, 300_000);
