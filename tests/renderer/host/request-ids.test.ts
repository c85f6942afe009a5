/** What a person asks for twice because nothing came back is one request; what they ask for again after an answer is another. */

import { expect, test } from 'vitest';
import type { StorageProblem } from '../../../core/storage-problem.ts';
import { askHost } from '../../../renderer/host/host-bridge.ts';
import { MemoryBridge } from '../../memory-bridge.ts';

const failedSync: StorageProblem = { kind: 'storage', fault: 'ioError', file: 'evenrun.sqlite', detail: 'fsync' };
const asked = { name: 'New', from: 'blank' } as const;

const idsOf = (bridge: MemoryBridge) =>
  bridge.calls.map(({ request }) => (request as { readonly requestId: string }).requestId);

test('asked again after a lost answer, the same header is there, once', async () => {
  const bridge = new MemoryBridge();
  bridge.failNext('createHeader', { kind: 'answerLost' });
  expect((await askHost(bridge, 'createHeader', asked)).ok).toBe(false);
  const made = await askHost(bridge, 'createHeader', asked);
  expect(made.ok && made.value.header.id).toBe('made-1');
  const another = await askHost(bridge, 'createHeader', asked);
  expect(another.ok && another.value.header.id).toBe('made-2');
});

test('asked again after a disk refused it, it keeps its id; after any other refusal it does not', async () => {
  const bridge = new MemoryBridge();
  bridge.failNext('createHeader', { kind: 'problem', problem: failedSync });
  bridge.failNext('createHeader', { kind: 'problem', problem: { kind: 'notFound', what: 'header', id: 'h' } });
  for (let times = 0; times < 3; times += 1) await askHost(bridge, 'createHeader', asked);
  const [first, second, third] = idsOf(bridge);
  expect(second).toBe(first);
  expect(third).not.toBe(first);
});

test('something else is never taken for it', async () => {
  const bridge = new MemoryBridge();
  bridge.failNext('createHeader', { kind: 'answerLost' });
  await askHost(bridge, 'createHeader', asked);
  await askHost(bridge, 'createHeader', { ...asked, name: 'Other' });
  const [first, second] = idsOf(bridge);
  expect(second).not.toBe(first);
});
