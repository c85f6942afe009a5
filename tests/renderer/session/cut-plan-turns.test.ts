/** Undoing a cut plan in a window: it moves stock as well, so it is made on disk as it is or not at all. */

import { expect, test } from 'vitest';
import { HeaderSession } from '../../../renderer/session/header-session.ts';
import { MemoryBridge } from '../../memory-bridge.ts';
import { add, HandTimers, HEADER, open, piecesOf, settle } from './open-session.ts';

/** Two windows on a header whose one step, the adding of piece a, counts as a cut plan in the second. */
async function openWithPlan() {
  const bridge = new MemoryBridge(HEADER);
  const first = open(bridge);
  first.session.apply(add('a'));
  await settle();
  const opened = bridge.headerOf('h1');
  const undo = opened.undo.map((step) => ({ ...step, isPlan: true as const }));
  const session = new HeaderSession({ ...opened, undo }, { bridge, random: Math.random, timers: new HandTimers() });
  return { bridge, first, session };
}

test.each([
  { kind: 'stockChangedSince', item: 'a remnant' },
  { kind: 'finished', name: 'The other bank' },
] as const)(
  'an undo of a cut plan that is refused for $kind is left out with the reason, and what was made meanwhile is kept',
  async (problem) => {
    const { bridge, session } = await openWithPlan();
    bridge.failNext('commitSteps', { kind: 'problem', problem });
    session.undo();
    session.apply({ kind: 'setHeader', set: { note: 'typed meanwhile' } });
    await settle();
    const { header, dropped, conflict, save } = session.getState();
    expect([piecesOf(header), header.note, conflict, save]).toEqual([
      ['a'],
      'typed meanwhile',
      null,
      { kind: 'saved' },
    ]);
    expect(dropped).toMatchObject([{ label: expect.stringMatching(/^undo /), problems: [problem] }]);
    expect(bridge.headerOf('h1').header).toEqual(header);
  },
);

test('an undo of a cut plan is not made again by itself on top of what others did', async () => {
  const { first, session } = await openWithPlan();
  first.session.apply({ kind: 'setHeader', set: { note: 'theirs' } });
  await settle();
  session.undo();
  session.apply({ kind: 'setHeader', set: { name: 'Mine' } });
  await settle();
  expect(session.getState().conflict).not.toBe(null);
  await session.settleConflict('mineOnTop');
  await settle();
  const { header, dropped } = session.getState();
  expect([piecesOf(header), header.note, header.name]).toEqual([['a'], 'theirs', 'Mine']);
  expect(dropped).toMatchObject([{ problems: [{ kind: 'planTurnedAlone' }] }]);
});
