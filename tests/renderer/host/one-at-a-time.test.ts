/** A host that is slow to answer is not asked over and over. */

import { expect, test } from 'vitest';
import { oneAtATime } from '../../../renderer/host/one-at-a-time.ts';

test('a question is left out until the one before has its answer', async () => {
  const waiting: PromiseWithResolvers<void>[] = [];
  const ask = oneAtATime(() => {
    const answer = Promise.withResolvers<void>();
    waiting.push(answer);
    return answer.promise;
  });
  for (let times = 0; times < 7; times += 1) ask();
  expect(waiting).toHaveLength(1);
  waiting[0]?.resolve();
  const asked = () => {
    ask();
    return waiting.length;
  };
  await expect.poll(asked).toBe(2);
  expect(asked()).toBe(2);
});
