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
