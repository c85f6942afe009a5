/** An open header against a host that fails in every way a host can. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Edit, SingleEdit } from '../../../core/edits/edit.ts';
import { inches } from '../../../core/units/length.ts';
import { HeaderSession } from '../../../renderer/session/header-session.ts';
import { MemoryBridge } from '../../memory-bridge.ts';
import { add, HEADER, open, piecesOf, settle, straight } from './open-session.ts';

describe('the save mark', () => {
  test('an edit shows at once and counts as saved only after the acknowledgement', async () => {
    const bridge = new MemoryBridge(HEADER);
    const { session } = open(bridge);
    bridge.hold();
    expect(session.apply(add('a')).ok).toBe(true);
    expect(piecesOf(session.getState().header)).toEqual(['a']);
    await settle();
    expect(session.getState().save).toEqual({ kind: 'saving' });
    expect(piecesOf(bridge.headerOf('h1').header)).toEqual([]);
    bridge.release();
    await settle();
    expect(session.getState().save).toEqual({ kind: 'saved' });
    expect(bridge.headerOf('h1').header).toEqual(session.getState().header);
  });

  test('a full disk is named, the entry is kept, and the next try saves it', async () => {
    const bridge = new MemoryBridge(HEADER);
    const { session, timers } = open(bridge);
    bridge.failNext('commitSteps', {
      kind: 'problem',
      problem: { kind: 'storage', fault: 'diskFull', file: 'evenrun.db', detail: 'full' },
    });
    session.apply(add('a'));
    await settle();
    const { save } = session.getState();
    expect(save.kind).toBe('notSaved');
    expect(save.kind === 'notSaved' && save.reason.length > 10).toBe(true);
    timers.run();
    await settle();
    expect(session.getState().save).toEqual({ kind: 'saved' });
    expect(piecesOf(bridge.headerOf('h1').header)).toEqual(['a']);
  });

  test('waits between tries double from 200 ms to 5 s', async () => {
    const bridge = new MemoryBridge(HEADER);
    const { session, timers } = open(bridge);
    for (let tries = 0; tries < 8; tries += 1) bridge.failNext('commitSteps', { kind: 'neverArrives' });
    session.apply(add('a'));
    for (let tries = 0; tries < 8; tries += 1) {
      await settle();
      timers.run();
    }
    await settle();
    expect(timers.waitsMs).toEqual([200, 400, 800, 1600, 3200, 5000, 5000, 5000]);
    expect(session.getState().save).toEqual({ kind: 'saved' });
  });

  test('a step whose answer was lost is committed once', async () => {
    const bridge = new MemoryBridge(HEADER);
    const { session, timers } = open(bridge);
    bridge.failNext('commitSteps', { kind: 'answerLost' });
    session.apply(add('a'));
    await settle();
    session.apply(add('b'));
    timers.run();
    await settle();
    expect(bridge.headerOf('h1').revision).toBe(2);
    expect(piecesOf(bridge.headerOf('h1').header)).toEqual(['b', 'a']);
    expect(session.getState().save).toEqual({ kind: 'saved' });
  });

  test('an edit that core refuses changes nothing and sends nothing', async () => {
    const bridge = new MemoryBridge(HEADER);
    const { session } = open(bridge);
    expect(session.apply({ kind: 'removePrimary', primaryId: 'none' }).ok).toBe(false);
    await settle();
    expect(session.getState().header).toEqual(HEADER);
    expect(bridge.calls).toEqual([]);
  });
});

describe('sending', () => {
  test('one request is in flight at a time, and the rest goes in requests of up to 500 steps', async () => {
    const bridge = new MemoryBridge(HEADER);
    const { session } = open(bridge);
    const settings = (value: number): Edit => ({ kind: 'setSettings', set: { clr: inches(value) } });
    for (let step = 1; step <= 1002; step += 1) session.apply(settings(step));
    for (let turn = 0; turn < 10; turn += 1) await settle();
    const counts = bridge.calls.map((call) => (call.request as { steps: readonly unknown[] }).steps.length);
    expect(counts).toEqual([1, 500, 500, 1]);
    expect(bridge.headerOf('h1').revision).toBe(1002);
    expect(bridge.headerOf('h1').header.settings.clr).toEqual(inches(1002));
  });

  test('flush commits the field in hand and waits for the disk', async () => {
    const bridge = new MemoryBridge(HEADER);
    const { session } = open(bridge);
    session.addCommitter(() => session.apply(add('from-field')).ok);
    await session.flush();
    expect(piecesOf(bridge.headerOf('h1').header)).toEqual(['from-field']);
  });
});

describe('undo and redo', () => {
  test('are named, unlimited, and survive reopening', async () => {
    const bridge = new MemoryBridge(HEADER);
    const first = open(bridge).session;
    for (let index = 0; index < 60; index += 1) first.apply(add(`piece-${index}`));
    await first.flush();
    const second = open(bridge).session;
    expect(second.getState().undoLabel).toContain('straight');
    let undone = 0;
    while (second.undo()) undone += 1;
    expect(undone).toBe(60);
    expect(second.getState().header).toEqual(HEADER);
    await second.flush();
    expect(bridge.headerOf('h1').header).toEqual(HEADER);
    const third = open(bridge).session;
    while (third.redo()) undone -= 1;
    expect(undone).toBe(0);
    await third.flush();
    expect(piecesOf(bridge.headerOf('h1').header)).toHaveLength(60);
  });

  test('any order of edits, undos and redos leaves disk and screen the same', async () => {
    const step = fc.constantFrom('do', 'undo', 'redo', 'lost', 'down', 'timers');
    await fc.assert(
      fc.asyncProperty(fc.array(step, { maxLength: 40 }), async (steps) => {
        const bridge = new MemoryBridge(HEADER);
        const { session, timers } = open(bridge);
        for (const [index, name] of steps.entries()) {
          if (name === 'do') session.apply(add(`n${index}`, index + 1));
          if (name === 'undo') session.undo();
          if (name === 'redo') session.redo();
          if (name === 'lost') bridge.failNext('commitSteps', { kind: 'answerLost' });
          if (name === 'down') bridge.failNext('commitSteps', { kind: 'neverArrives' });
          if (name === 'timers') timers.run();
          if (index % 3 === 0) await settle();
        }
        for (let tries = 0; tries < 45 && session.getState().save.kind !== 'saved'; tries += 1) {
          await settle();
          timers.run();
        }
        await settle();
        expect(session.getState().save).toEqual({ kind: 'saved' });
        const disk = bridge.headerOf('h1');
        expect(disk.header).toEqual(session.getState().header);
        expect(disk.revision).toBe(session.revision);
        expect(disk.undo.at(-1)?.label ?? null).toBe(session.getState().undoLabel);
        expect(disk.redo.at(-1)?.label ?? null).toBe(session.getState().redoLabel);
      }),
      { numRuns: 60 },
    );
  });
});

describe('another window', () => {
  test('its change is shown when nothing of ours is on its way', async () => {
    const bridge = new MemoryBridge(HEADER);
    const mine = open(bridge).session;
    const theirs = open(bridge).session;
    theirs.apply(add('theirs'));
    await theirs.flush();
    await mine.lookForChanges();
    expect(piecesOf(mine.getState().header)).toEqual(['theirs']);
    expect(mine.revision).toBe(1);
  });

  async function collide(): Promise<{ bridge: MemoryBridge; mine: HeaderSession }> {
    const bridge = new MemoryBridge(HEADER);
    const mine = open(bridge).session;
    const theirs = open(bridge).session;
    theirs.apply({ kind: 'removePrimary', primaryId: 'p2' });
    await theirs.flush();
    mine.apply(add('mine'));
    mine.apply({ kind: 'setPrimary', primaryId: 'p2', set: { name: 'two' } });
    await settle();
    return { bridge, mine };
  }

  test('a collision shows both and overwrites nothing', async () => {
    const { bridge, mine } = await collide();
    const { conflict, save } = mine.getState();
    expect(conflict?.theirs?.primaries.map((primary) => primary.id)).toEqual(['p1']);
    expect(conflict?.mine.primaries.map((primary) => primary.name)).toEqual(['1', 'two']);
    expect(conflict?.mySteps).toHaveLength(2);
    expect(save.kind).toBe('notSaved');
    expect(piecesOf(bridge.headerOf('h1').header)).toEqual([]);
  });

  test('mine on top of theirs makes what still fits and lists what does not', async () => {
    const { bridge, mine } = await collide();
    await mine.settleConflict('mineOnTop');
    await mine.flush();
    const { conflict, dropped, save, header } = mine.getState();
    expect(conflict).toBeNull();
    expect(save).toEqual({ kind: 'saved' });
    expect(piecesOf(header)).toEqual(['mine']);
    expect(header.primaries).toHaveLength(1);
    expect(dropped).toHaveLength(1);
    expect(dropped[0]?.problems[0]?.kind).toBe('unknownId');
    expect(bridge.headerOf('h1').header).toEqual(header);
  });

  test('what I put at the end goes to the end after theirs, and what I put elsewhere stays in its place', async () => {
    const bridge = new MemoryBridge(HEADER);
    const first = open(bridge).session;
    first.apply(add('a'));
    await first.flush();
    const mine = open(bridge).session;
    const theirs = open(bridge).session;
    const at = (id: string, place: number): SingleEdit => ({
      kind: 'addPiece',
      primaryId: 'p1',
      piece: straight(id, 2),
      at: place,
    });
    theirs.apply({ kind: 'batch', label: 'two more', edits: [at('t1', 1), at('t2', 2)] });
    await theirs.flush();
    mine.apply(at('m1', 1));
    mine.apply({ kind: 'batch', label: 'two more', edits: [at('m2', 2), at('m3', 3)] });
    mine.apply(at('start', 0));
    await settle();
    await mine.settleConflict('mineOnTop');
    await mine.flush();
    const { header, dropped } = mine.getState();
    expect(dropped).toEqual([]);
    expect(piecesOf(header)).toEqual(['start', 'a', 't1', 't2', 'm1', 'm2', 'm3']);
    expect(bridge.headerOf('h1').header).toEqual(header);
    for (let step = 0; step < 3; step += 1) mine.undo();
    expect(piecesOf(mine.getState().header)).toEqual(['a', 't1', 't2']);
  });

  test('theirs drops mine', async () => {
    const { bridge, mine } = await collide();
    await mine.settleConflict('theirs');
    expect(mine.getState().header).toEqual(bridge.headerOf('h1').header);
    expect(mine.getState().save).toEqual({ kind: 'saved' });
  });

  test('mine as a copy stands beside theirs, whole', async () => {
    const { bridge, mine } = await collide();
    const before = mine.getState().header;
    const copy = await mine.settleConflict('mineAsCopy');
    expect(copy?.header.primaries).toEqual(before.primaries);
    expect(bridge.headerOf(copy?.header.id ?? '').header.name).toBe('Test four (mine)');
    expect(mine.getState().header).toEqual(bridge.headerOf('h1').header);
  });

  test('mine as a copy is made once, though the first answer is lost', async () => {
    const { bridge, mine } = await collide();
    bridge.failNext('importHeader', { kind: 'answerLost' });
    expect(await mine.settleConflict('mineAsCopy')).toBeNull();
    const copy = await mine.settleConflict('mineAsCopy');
    expect(copy?.header.name).toBe('Test four (mine)');
    expect(bridge.calls.filter(({ name }) => name === 'importHeader')).toHaveLength(2);
    expect(copy?.header.id).toBe('made-1');
  });

  test('a header that is gone can still be kept as a copy', async () => {
    const bridge = new MemoryBridge(HEADER);
    const { session } = open(bridge);
    bridge.forget('h1');
    session.apply(add('mine'));
    await settle();
    expect(session.getState().conflict?.theirs).toBeNull();
    const copy = await session.settleConflict('mineAsCopy');
    expect(piecesOf(copy?.header ?? HEADER)).toEqual(['mine']);
    expect(session.getState().conflict).toBeNull();
    expect(session.getState().save).toEqual({ kind: 'saved' });
  });
});

describe('a long history', () => {
  test('all steps can be undone one after another without a wait, though only the newest come with the header', async () => {
    const bridge = new MemoryBridge(HEADER);
    const first = open(bridge).session;
    for (let step = 0; step < 200; step += 1) first.apply({ kind: 'setHeader', set: { note: `note ${step}` } });
    await first.flush();
    const { session } = open(bridge);
    expect(bridge.headerOf('h1').undo.length).toBeLessThan(100);
    for (let step = 199; step >= 0; step -= 1) {
      expect(session.undo()).toBe(true);
      expect(session.getState().header.note).toBe(step === 0 ? '' : `note ${step - 1}`);
      // A key that is held down repeats after 30 ms at the soonest; an answer takes a few.
      await settle();
    }
    expect([session.undo(), session.getState().undoLabel]).toEqual([false, null]);
    await session.flush();
    expect(bridge.headerOf('h1').header).toEqual(HEADER);
    const again = open(bridge).session;
    for (let step = 0; step < 200; step += 1) {
      expect(again.redo()).toBe(true);
      await settle();
    }
    expect([again.redo(), again.getState().header.note]).toEqual([false, 'note 199']);
  });

  test('is asked for again when an answer was lost, and not mixed into what a new step has ended', async () => {
    const bridge = new MemoryBridge(HEADER);
    const first = open(bridge).session;
    for (let step = 0; step < 150; step += 1) first.apply({ kind: 'setHeader', set: { note: `note ${step}` } });
    for (let step = 0; step < 140; step += 1) {
      first.undo();
      await settle();
    }
    await first.flush();
    const { session } = open(bridge);
    bridge.failNext('readHistory', { kind: 'neverArrives' });
    for (let step = 0; step < 30; step += 1) session.redo();
    await settle();
    session.redo();
    bridge.hold();
    session.apply({ kind: 'setHeader', set: { note: 'new' } });
    bridge.release();
    await settle();
    expect([session.redo(), session.getState().redoLabel]).toEqual([false, null]);
    session.undo();
    await settle();
    expect(session.getState().header.note).toBe('note 40');
    expect([session.redo(), session.redo(), session.getState().header.note]).toEqual([true, false, 'new']);
  });
});

describe('a header that is damaged on disk', () => {
  const damage = { kind: 'damagedHeader', headerId: 'h1', detail: 'step 3 is damaged' } as const;

  test('is shown and takes no steps: the reason is given, and nothing is sent', async () => {
    const bridge = new MemoryBridge(HEADER);
    const { timers } = open(bridge);
    const parts = { bridge, random: Math.random, timers };
    const session = new HeaderSession({ ...bridge.headerOf('h1'), damage }, parts);
    expect(session.getState().damage).toEqual(damage);
    expect(session.apply(add('a'))).toEqual({ ok: false, problems: [damage] });
    await settle();
    expect(bridge.calls.map(({ name }) => name)).not.toContain('commitSteps');
    expect(session.getState().header).toEqual(HEADER);
  });

  test('is not read again and again because the host counts more steps than can be shown', async () => {
    const bridge = new MemoryBridge(HEADER);
    open(bridge).session.apply(add('a'));
    await settle();
    const parts = { bridge, random: Math.random, timers: open(bridge).timers };
    const session = new HeaderSession({ ...bridge.headerOf('h1'), header: HEADER, revision: 0, damage }, parts);
    await session.lookForChanges();
    expect(session.getState().header).toEqual(HEADER);
    expect(bridge.calls.map(({ name }) => name)).not.toContain('openHeader');
  });
});
