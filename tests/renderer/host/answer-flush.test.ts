/** A page that is asked to close says what it cannot save, and in any case when all is saved. */

import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { HostBridge } from '../../../electron/bridge/contract.ts';
import { answerFlush } from '../../../renderer/host/answer-flush.ts';
import type { HeaderSession } from '../../../renderer/session/header-session.ts';
import { MemoryBridge } from '../../memory-bridge.ts';
import { add, HEADER, open, piecesOf, settle } from '../session/open-session.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

type Heard = { readonly name: string; readonly request: unknown };

/** Asks the page to close, and notes what its host hears. */
function askToClose(session: HeaderSession): { readonly heard: readonly Heard[]; readonly answered: Promise<void> } {
  const heard: Heard[] = [];
  const call = async (name: string, request: unknown) => {
    heard.push({ name, request });
    return { ok: true, value: {} };
  };
  const held = { flush: () => session.flush(), unsaved: () => session.unsaved() };
  return { heard, answered: answerFlush({ call } as unknown as HostBridge, held) };
}

test('all is saved: that is all the host hears, at once', async () => {
  const { session } = open(new MemoryBridge(HEADER));
  session.apply(add('a'));
  const { heard, answered } = askToClose(session);
  await answered;
  await vi.advanceTimersByTimeAsync(10_000);
  expect(heard).toEqual([{ name: 'readyToClose', request: {} }]);
});

test('a step that cannot be saved is told after a second, with the header as it is shown and the reason', async () => {
  const bridge = new MemoryBridge(HEADER);
  const { session, timers } = open(bridge);
  const problem = { kind: 'storage', fault: 'diskFull', file: 'evenrun.db', detail: 'full' } as const;
  for (let tries = 0; tries < 2; tries += 1) bridge.failNext('commitSteps', { kind: 'problem', problem });
  session.apply(add('a'));
  await settle();
  const { heard, answered } = askToClose(session);
  await vi.advanceTimersByTimeAsync(999);
  expect(heard).toEqual([]);
  await vi.advanceTimersByTimeAsync(1);
  const request = {
    header: session.getState().header,
    steps: 1,
    reason: expect.stringContaining('evenrun.db is full'),
  };
  expect(heard).toEqual([{ name: 'notYetSaved', request }]);
  expect(piecesOf(session.getState().header)).toEqual(['a']);
  // There is room again.
  timers.run();
  await answered;
  expect(heard.map(({ name }) => name)).toEqual(['notYetSaved', 'readyToClose']);
  expect(session.unsaved()).toBeNull();
});

test('a disk that is only slow is told as slow', async () => {
  const bridge = new MemoryBridge(HEADER);
  const { session } = open(bridge);
  bridge.hold();
  session.apply(add('a'));
  session.apply(add('b'));
  expect(session.unsaved()).toMatchObject({ steps: 2, reason: 'the disk is slow to answer.' });
  bridge.release();
  await settle();
  expect(session.unsaved()).toBeNull();
});
