/** Half-typed text: kept while it is typed, gone with the step that takes it, offered again when it was not taken. */

import { expect, test } from 'vitest';
import { HeaderSession } from '../../../renderer/session/header-session.ts';
import { MemoryBridge } from '../../memory-bridge.ts';
import { add, HandTimers, HEADER, open, piecesOf, settle } from './open-session.ts';

/** Sends steps a moment after they are made, as the page does. */
function openInPage(bridge: MemoryBridge): { session: HeaderSession; timers: HandTimers } {
  const timers = new HandTimers();
  const afterPaint = (act: () => void) => void setTimeout(act, 1);
  const parts = { bridge, random: Math.random, timers, afterPaint };
  return { session: new HeaderSession(bridge.headerOf('h1'), parts), timers };
}

test('the latest text wins with one request in flight, and is offered again', async () => {
  const bridge = new MemoryBridge(HEADER);
  const { session } = open(bridge);
  for (const text of ['2', '2 ', '2 1', '2 1/', '2 1/4']) session.typed('entry:p1', text);
  await settle();
  const saved = bridge.calls.filter((call) => call.name === 'saveDraft');
  expect(saved).toHaveLength(2);
  expect(bridge.headerOf('h1').draft).toEqual({ field: 'entry:p1', text: '2 1/4' });
  expect(open(bridge).session.getState().draft).toEqual({ field: 'entry:p1', text: '2 1/4' });
});

test('a text too long to be kept is cut between two characters', async () => {
  const bridge = new MemoryBridge(HEADER);
  const { session } = open(bridge);
  session.typed('entry:p1', `${'x'.repeat(399)}\u{1f527}`);
  await settle();
  expect(bridge.headerOf('h1').draft?.text).toBe('x'.repeat(399));
});

test('when the text typed last is taken, the draft is again the one before it, but not before the step is on disk', async () => {
  const bridge = new MemoryBridge(HEADER);
  const { session, timers } = open(bridge);
  session.typed('entry:p1', '5 1/');
  session.typed('cell:a:size', '7');
  await settle();
  expect(bridge.headerOf('h1').draft).toEqual({ field: 'cell:a:size', text: '7' });
  bridge.failNext('commitSteps', { kind: 'neverArrives' });
  session.apply(add('a'));
  session.typed('cell:a:', '');
  await settle();
  expect(bridge.headerOf('h1').draft).toEqual({ field: 'cell:a:size', text: '7' });
  timers.run();
  await settle();
  expect(bridge.headerOf('h1').draft).toEqual({ field: 'entry:p1', text: '5 1/' });
  expect(session.textIn('entry:p2')).toBe('5 1/');
  expect(session.textIn('cell:a:size')).toBe('');
});

test('text goes with the step that took it, in one request', async () => {
  const bridge = new MemoryBridge(HEADER);
  const { session } = openInPage(bridge);
  session.typed('entry:p1', '2');
  await settle();
  session.apply(add('a'));
  session.typed('entry:p1', '');
  await session.flush();
  expect(bridge.calls.map(({ name }) => name)).toEqual(['saveDraft', 'commitSteps']);
  expect(bridge.headerOf('h1').draft).toBeNull();
  expect(piecesOf(bridge.headerOf('h1').header)).toEqual(['a']);
});

test('text typed while a step is on its way, or after an answer that was lost, is kept all the same', async () => {
  const bridge = new MemoryBridge(HEADER);
  const { session, timers } = openInPage(bridge);
  session.typed('entry:p1', '2');
  await settle();
  bridge.failNext('commitSteps', { kind: 'answerLost' });
  session.apply(add('a'));
  session.typed('entry:p1', '');
  session.retryNow();
  session.typed('entry:p1', '2');
  await settle();
  expect(bridge.headerOf('h1').draft).toEqual({ field: 'entry:p1', text: '2' });
  timers.run();
  await settle();
  expect(bridge.headerOf('h1').draft).toEqual({ field: 'entry:p1', text: '2' });
  session.typed('entry:p1', '');
  await session.flush();
  expect(bridge.headerOf('h1').draft).toBeNull();
  expect(piecesOf(bridge.headerOf('h1').header)).toEqual(['a']);
});

test('the draft of an accepted entry goes only once the entry is on disk', async () => {
  const bridge = new MemoryBridge(HEADER);
  const { session, timers } = open(bridge);
  session.typed('entry:p1', '2');
  await settle();
  bridge.failNext('commitSteps', { kind: 'neverArrives' });
  session.apply(add('a'));
  session.typed('entry:p1', '');
  await settle();
  expect(bridge.headerOf('h1').draft?.text).toBe('2');
  timers.run();
  await settle();
  expect(bridge.headerOf('h1').draft).toBeNull();
  expect(piecesOf(bridge.headerOf('h1').header)).toEqual(['a']);
});
