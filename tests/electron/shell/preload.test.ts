/** What the preload puts before the page, and what it keeps back. */

import { beforeAll, beforeEach, expect, test, vi } from 'vitest';
import { CALL_NAMES } from '../../../electron/bridge/call-names.ts';
import type { HostBridge, HostEvent } from '../../../electron/bridge/contract.ts';
import { contract } from '../../../electron/bridge/contract.ts';
import { electron } from '../electron-double.ts';

vi.mock('electron', () => import('../electron-double.ts'));

const EVENT_CHANNEL = 'evenrun:event';
let bridge: HostBridge;

beforeAll(async () => {
  await import('../../../electron/preload.ts');
  bridge = electron.contextBridge.exposed['evenrun'] as unknown as HostBridge;
});
beforeEach(() => {
  electron.ipcRenderer.invoked.length = 0;
});

const tell = (event: HostEvent) => electron.ipcRenderer.emit(EVENT_CHANNEL, { sender: 'secret' }, event);

test('exactly one name is exposed, with two functions and the name of the host', () => {
  expect(Object.keys(electron.contextBridge.exposed)).toEqual(['evenrun']);
  const kinds = Object.entries(bridge).map(([name, member]) => [name, typeof member]);
  expect(kinds).toEqual([
    ['host', 'string'],
    ['call', 'function'],
    ['onEvent', 'function'],
  ]);
  expect(bridge.host).toBe('electron');
});

test('the names are those of the contract', () => {
  expect([...CALL_NAMES].sort()).toEqual(Object.keys(contract).sort());
});

test('a call goes over the one channel', async () => {
  await bridge.call('openHeader', { headerId: 'abc' });
  expect(electron.ipcRenderer.invoked).toEqual([
    { channel: 'evenrun:call', rest: ['openHeader', { headerId: 'abc' }] },
  ]);
});

test.each(['toString', '__proto__', 'evenrun:call', '', 'Start'])('%s is no call and goes nowhere', async (name) => {
  await expect(bridge.call(name as never, {} as never)).rejects.toThrow('no call named');
  expect(electron.ipcRenderer.invoked).toEqual([]);
});

test('a page that does not listen yet holds nothing, and lets its window close at once', () => {
  tell({ kind: 'flush' });
  expect(electron.ipcRenderer.invoked).toEqual([{ channel: 'evenrun:call', rest: ['readyToClose', {}] }]);
  const listener = vi.fn();
  bridge.onEvent(listener)();
  expect(listener).not.toHaveBeenCalled();
});

test('what was told before the page listened is told when it does, once and in order', () => {
  tell({ kind: 'command', command: 'undo' });
  tell({ kind: 'command', command: 'redo' });
  const first = vi.fn();
  const second = vi.fn();
  const stopFirst = bridge.onEvent(first);
  const stopSecond = bridge.onEvent(second);
  stopFirst();
  stopSecond();
  expect(first.mock.calls).toEqual([[{ kind: 'command', command: 'undo' }], [{ kind: 'command', command: 'redo' }]]);
  expect(second).not.toHaveBeenCalled();
});

test('a listener hears the message and never the event object, until it stops', () => {
  const listener = vi.fn();
  const stop = bridge.onEvent(listener);
  tell({ kind: 'flush' });
  expect(listener.mock.calls).toEqual([[{ kind: 'flush' }]]);
  stop();
  const other = bridge.onEvent(() => undefined);
  tell({ kind: 'flush' });
  other();
  expect(listener).toHaveBeenCalledTimes(1);
});

test('a function that listens twice hears twice, and each stops by itself', () => {
  const listener = vi.fn();
  const stops = [bridge.onEvent(listener), bridge.onEvent(listener)];
  tell({ kind: 'flush' });
  expect(listener).toHaveBeenCalledTimes(2);
  stops[0]?.();
  tell({ kind: 'flush' });
  expect(listener).toHaveBeenCalledTimes(3);
  stops[1]?.();
});
