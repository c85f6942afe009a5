/** Edits on pieces and primaries, each undone by its inverse. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import type { Edit } from '../../../core/edits/edit.ts';
import {
  addPiecesEdit,
  duplicatePiecesEdit,
  movePiecesEdit,
  removePiecesEdit,
  shiftPiecesEdit,
} from '../../../core/edits/piece-edits.ts';
import { setLockedEdit, setStateEdit } from '../../../core/edits/piece-state-edits.ts';
import {
  addPrimariesEdit,
  addPrimaryEdit,
  duplicatePrimaryEdit,
  movePrimaryEdit,
} from '../../../core/edits/primary-edits.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';
import { type Header, PIECE_STATES, type Primary } from '../../../core/header/header.ts';
import { newHeader } from '../../../core/header/new-header.ts';
import { primaryBy } from '../../../renderer/bench/bench-view.ts';

const HEADER = demoHeader('demo');
const FIRST = HEADER.primaries[0] as Primary;
const ids = (header: Header, at = 0) => header.primaries[at]?.pieces.map((piece) => piece.id) ?? [];

function counter(): () => string {
  let count = 0;
  return () => `new-${count++}`;
}

/** Applies, checks that the inverse gives the header back, and returns what came of it. */
function done(edit: Edit | null, header = HEADER): Header {
  if (edit === null) throw new Error('an edit was expected');
  const applied = applyEdit(header, edit);
  if (!applied.ok) throw new Error(JSON.stringify(applied.problems));
  const back = applyEdit(applied.value.header, applied.value.inverse);
  expect(back.ok && back.value.header).toEqual(header);
  return applied.value.header;
}

describe('pieces', () => {
  test('several pieces go in as one step, in order, where asked', () => {
    const fresh = FIRST.pieces.slice(0, 3).map((piece, index) => ({ ...piece, id: `fresh-${index}` }));
    const after = ids(done(addPiecesEdit(FIRST, fresh, 1)));
    expect(after.slice(0, 5)).toEqual([FIRST.pieces[0]?.id, 'fresh-0', 'fresh-1', 'fresh-2', FIRST.pieces[1]?.id]);
    expect(addPiecesEdit(FIRST, [], 0)).toBeNull();
  });

  test('removing several is one step', () => {
    const gone = FIRST.pieces.slice(1, 3).map((piece) => piece.id);
    expect(ids(done(removePiecesEdit(FIRST, gone)))).toEqual(
      FIRST.pieces.map((piece) => piece.id).filter((id) => !gone.includes(id)),
    );
  });

  test('a piece shifts one place and stops at the ends', () => {
    const [a, b] = FIRST.pieces;
    expect(ids(done(shiftPiecesEdit(FIRST, [a?.id ?? ''], 1))).slice(0, 2)).toEqual([b?.id, a?.id]);
    expect(shiftPiecesEdit(FIRST, [a?.id ?? ''], -1)).toBeNull();
    expect(shiftPiecesEdit(FIRST, [FIRST.pieces.at(-1)?.id ?? ''], 1)).toBeNull();
    expect(shiftPiecesEdit(FIRST, ['nobody'], 1)).toBeNull();
    expect(shiftPiecesEdit(FIRST, [], 1)).toBeNull();
  });

  test('pieces moved together keep their order, stand before the place they were moved to, and come back by undo', () => {
    const all = FIRST.pieces.map(({ id }) => id);
    fc.assert(
      fc.property(fc.subarray(all, { minLength: 1 }), fc.integer({ min: 0, max: all.length }), (moved, before) => {
        const edit = movePiecesEdit(FIRST, moved, before);
        const stay = (id: string) => !moved.includes(id);
        const wanted = [...all.slice(0, before).filter(stay), ...moved, ...all.slice(before).filter(stay)];
        if (edit === null) {
          expect(wanted).toEqual(all);
          return;
        }
        const applied = applyEdit(HEADER, edit);
        if (!applied.ok) throw new Error('the move was refused');
        expect(ids(applied.value.header)).toEqual(wanted);
        const back = applyEdit(applied.value.header, applied.value.inverse);
        expect(back.ok && back.value.header).toEqual(HEADER);
      }),
    );
    expect(movePiecesEdit(FIRST, [all[0] ?? '', 'nobody'], 3)).toBeNull();
  });

  test.each(PIECE_STATES)(
    'a duplicate of a %s piece stands right after it, not locked, and planned where that one is welded',
    (state) => {
      const pieces = FIRST.pieces.map((piece) => ({ ...piece, state, locked: true, note: 'snug' }));
      const header = { ...HEADER, primaries: HEADER.primaries.with(0, { ...FIRST, pieces }) };
      const after = done(
        duplicatePiecesEdit({ ...FIRST, pieces }, [pieces[2]?.id ?? ''], () => 'twin'),
        header,
      );
      const twin = { ...pieces[2], id: 'twin', state: state === 'welded' ? 'planned' : state, locked: false };
      expect(after.primaries[0]?.pieces.slice(2, 4)).toEqual([pieces[2], twin]);
      expect(duplicatePiecesEdit(FIRST, ['nobody'], () => 'twin')).toBeNull();
    },
  );

  test('several duplicates stand after the last of the originals, in order', () => {
    const [a, b, c] = FIRST.pieces.map(({ id }) => id);
    let made = 0;
    const newId = () => `twin-${++made}`;
    const after = ids(done(duplicatePiecesEdit(FIRST, [c ?? '', a ?? ''], newId)));
    expect(after.slice(0, 5)).toEqual([a, b, c, 'twin-1', 'twin-2']);
  });

  test('all pieces are put into one state as one step', () => {
    const after = done(setStateEdit(FIRST, FIRST.pieces, 'cut'));
    expect(new Set(after.primaries[0]?.pieces.map((piece) => piece.state))).toEqual(new Set(['cut']));
    expect(setStateEdit(after.primaries[0] as Primary, after.primaries[0]?.pieces ?? [], 'cut')).toBeNull();
  });

  test('pieces that are in the state, or locked, already are left out of the step', () => {
    const welded = setStateEdit(FIRST, FIRST.pieces, 'welded');
    const changed = FIRST.pieces.filter(({ state }) => state !== 'welded').length;
    expect(welded?.kind === 'batch' && welded.edits.length).toBe(changed);
    expect(changed).toBeLessThan(FIRST.pieces.length);
    const locked = done(setLockedEdit(FIRST, FIRST.pieces, true)).primaries[0] as Primary;
    expect(locked.pieces.every((piece) => piece.locked)).toBe(true);
    expect(setLockedEdit(locked, locked.pieces, true)).toBeNull();
  });
});

describe('primaries', () => {
  test('a new one gets the least free number', () => {
    const after = done(addPrimaryEdit(HEADER, 'extra'));
    expect(after.primaries.at(-1)).toMatchObject({ id: 'extra', name: '5', pieces: [] });
    const gap = { ...HEADER, primaries: HEADER.primaries.toSpliced(1, 1) };
    expect(done(addPrimaryEdit(gap, 'extra'), gap).primaries.at(-1)?.name).toBe('2');
  });

  test('several at once are one step', () => {
    const empty = newHeader({ id: 'empty', name: 'Empty' });
    expect(done(addPrimariesEdit(empty, ['a', 'b', 'c', 'd']), empty).primaries.map(({ name }) => name)).toEqual([
      '1',
      '2',
      '3',
      '4',
    ]);
  });

  test('several at once pass over the numbers that are taken', () => {
    const third = { ...newHeader({ id: 'h', name: 'H' }), primaries: [{ ...FIRST, name: '3', inletId: null }] };
    expect(done(addPrimariesEdit(third, ['a', 'b', 'c']), third).primaries.map(({ name }) => name)).toEqual([
      '3',
      '1',
      '2',
      '4',
    ]);
  });

  test('a duplicate has the same shape under new ids, with nothing of it made yet', () => {
    const after = done(duplicatePrimaryEdit(HEADER, FIRST.id, counter()));
    const twin = after.primaries[1];
    expect(twin?.pieces).toHaveLength(FIRST.pieces.length);
    expect(new Set([...ids(after, 0), ...ids(after, 1)]).size).toBe(2 * FIRST.pieces.length);
    expect(twin?.pieces.every((piece) => piece.state === 'planned')).toBe(true);
    expect([twin?.port, twin?.inletId]).toEqual([null, null]);
  });

  test('moving stops at the ends', () => {
    expect(movePrimaryEdit(HEADER, FIRST.id, -1)).toBeNull();
    expect(done(movePrimaryEdit(HEADER, FIRST.id, 1)).primaries[1]?.id).toBe(FIRST.id);
    expect(primaryBy(HEADER, FIRST.id, -5)?.id).toBe(FIRST.id);
    expect(primaryBy({ ...HEADER, primaries: [] }, null, 1)).toBeNull();
  });
});
