/** Steps that a page could not save, found again by the next page of its tab; none of them twice. */

import { expect, test } from 'vitest';
import { keepUnsaved, leftUnsaved, setAsideUnsaved, settleUnsaved } from '../../../renderer/session/unsaved-steps.ts';
import { MemoryBridge } from '../../memory-bridge.ts';
import { add, HEADER, open, settle } from './open-session.ts';

function tab() {
  const kept = new Map<string, string>();
  return {
    kept,
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, text: string) => void kept.set(key, text),
    removeItem: (key: string) => void kept.delete(key),
  };
}

const editsOf = (storage: ReturnType<typeof tab>) => leftUnsaved('h1', storage).map(({ edit }) => edit);

test('what was not saved is offered until it is settled, with the names of its steps', async () => {
  const bridge = new MemoryBridge(HEADER);
  const { session } = open(bridge);
  const storage = tab();
  bridge.failNext('commitSteps', { kind: 'neverArrives' });
  session.apply(add('a'));
  session.apply(add('b'));
  await settle();
  keepUnsaved(session, storage);
  setAsideUnsaved(bridge.headerOf('h1'), storage);
  expect(editsOf(storage)).toEqual([add('a'), add('b')]);
  expect(leftUnsaved('h1', storage)[0]?.label).toMatch(/^add straight/);
  // A page that is loaded again without an answer to the question asks it again.
  setAsideUnsaved(bridge.headerOf('h1'), storage);
  expect(editsOf(storage)).toHaveLength(2);
  settleUnsaved('h1', storage);
  expect(editsOf(storage)).toEqual([]);
});

test('a step whose answer alone was lost is on disk, and is not offered', async () => {
  const bridge = new MemoryBridge(HEADER);
  const { session } = open(bridge);
  const storage = tab();
  bridge.failNext('commitSteps', { kind: 'answerLost' });
  session.apply(add('a'));
  await settle();
  session.apply(add('b'));
  keepUnsaved(session, storage);
  setAsideUnsaved(bridge.headerOf('h1'), storage);
  expect(editsOf(storage)).toEqual([add('b')]);
});

test.each([
  ['an undo', ['undo']],
  ['an undo and a redo', ['undo', 'redo']],
  ['an undo and a new step', ['undo', 'do']],
  ['a step, its undo and its redo', ['do', 'undo', 'redo']],
] as const)('%s whose answer alone was lost is not offered, and what came after it is', async (_what, actions) => {
  const bridge = new MemoryBridge(HEADER);
  const { session } = open(bridge);
  const storage = tab();
  session.apply(add('a'));
  await settle();
  // While one step is on its way, the others gather for one request; of that, the answer is lost.
  bridge.hold();
  session.apply(add('first'));
  for (const action of actions) {
    if (action === 'do') session.apply(add('b'));
    else session[action]();
  }
  const answer = bridge.call.bind(bridge);
  bridge.call = async (name, request) => {
    const reply = await answer(name, request);
    if (name === 'commitSteps') throw new Error('the answer is lost');
    return reply;
  };
  bridge.release();
  await settle();
  session.apply(add('c'));
  keepUnsaved(session, storage);
  expect(session.pendingSteps).toHaveLength(actions.length + 1);
  setAsideUnsaved(bridge.headerOf('h1'), storage);
  expect(editsOf(storage)).toEqual([add('c')]);
});

test('a step taken back is offered as that', async () => {
  const bridge = new MemoryBridge(HEADER);
  const { session } = open(bridge);
  const storage = tab();
  session.apply(add('a'));
  await settle();
  bridge.failNext('commitSteps', { kind: 'neverArrives' });
  session.undo();
  await settle();
  keepUnsaved(session, storage);
  setAsideUnsaved(bridge.headerOf('h1'), storage);
  expect(leftUnsaved('h1', storage).map(({ label }) => label)).toEqual([expect.stringMatching(/^undo add straight/)]);
});

test('where another window has changed the header meanwhile, all is offered', async () => {
  const bridge = new MemoryBridge(HEADER);
  const [mine, theirs] = [open(bridge).session, open(bridge).session];
  const storage = tab();
  bridge.failNext('commitSteps', { kind: 'neverArrives' });
  mine.apply(add('a'));
  await settle();
  keepUnsaved(mine, storage);
  theirs.apply(add('c'));
  await settle();
  setAsideUnsaved(bridge.headerOf('h1'), storage);
  expect(editsOf(storage)).toEqual([add('a')]);
});

test('once all is saved nothing is kept, and what is no list of steps is passed over', async () => {
  const bridge = new MemoryBridge(HEADER);
  const { session } = open(bridge);
  const storage = tab();
  session.apply(add('a'));
  keepUnsaved(session, storage);
  expect(storage.kept.size).toBe(1);
  await settle();
  keepUnsaved(session, storage);
  expect(storage.kept.size).toBe(0);
  for (const text of ['{', 'null', '[]', '{"revision":0,"steps":[null]}', '{"revision":"0","steps":[]}']) {
    storage.setItem('evenrun-unsaved:h1', text);
    setAsideUnsaved(bridge.headerOf('h1'), storage);
    expect(editsOf(storage)).toEqual([]);
  }
});
