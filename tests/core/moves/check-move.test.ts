/** The check of moves itself: it finds what is wrong. */

import { describe, expect, it } from 'vitest';
import type { SingleEdit } from '../../../core/edits/edit.ts';
import type { Piece } from '../../../core/header/header.ts';
import type { Move } from '../../../core/moves/move.ts';
import { suggestMoves } from '../../../core/moves/suggest-moves.ts';
import { millimetres } from '../../../core/units/length.ts';
import { ALONG_X, bend, primaryOf, straight } from '../path/made-primaries.ts';
import { faultsOf } from './check-move.ts';
import { fittedHeader, lengthOf } from './made-headers.ts';

const PIECES: readonly Piece[] = [straight(60), bend(76, 90, 0), straight(40), bend(76, 90, 0), straight(60)];
const PRIMARY = primaryOf(PIECES, { id: 'own', port: ALONG_X });
const HEADER = fittedHeader(PRIMARY, { targetMm: lengthOf(PRIMARY) + 10 });

function soundMove(): Move {
  const outcome = suggestMoves(HEADER, 'own', { kinds: ['straights'] });
  const [move] = outcome.kind === 'found' ? outcome.moves : [];
  if (move === undefined) throw new Error('No move to spoil');
  return move;
}

/** The move with one more edit at its end. */
function spoiled(edit: SingleEdit): Move {
  const move = soundMove();
  return { ...move, edit: { ...move.edit, edits: [...move.edit.edits, edit] } };
}

function replaced(index: number, change: Partial<Piece>): SingleEdit {
  return { kind: 'replacePiece', primaryId: 'own', piece: { ...PIECES[index], ...change } as Piece };
}

describe('a move', () => {
  it('that is sound has no fault', () => {
    expect(faultsOf(HEADER, soundMove(), {})).toEqual([]);
  });

  it.each<[string, SingleEdit, RegExp]>([
    ['is too long', replaced(0, { length: millimetres(75) }), /^not in the band/],
    ['leaves a gap', replaced(2, { length: millimetres(41.5) }), /^gap/],
    ['leans', replaced(3, { angleDeg: 89.5 }), /^tilt 0[.][45]/],
    ['is turned', replaced(1, { clockingDeg: 1 }), /^gap/],
    ['leaves a sliver', replaced(2, { length: millimetres(5) }), /^straight of 5/],
    ['touches what is not there', { kind: 'removePiece', primaryId: 'own', pieceId: 'none' }, /^refused/],
  ])('that %s is found out', (_, edit, fault) => {
    expect(faultsOf(HEADER, spoiled(edit), {}).some((one) => fault.test(one))).toBe(true);
  });

  it('that touches a locked piece, or breaks more joints than allowed, is found out', () => {
    const move = soundMove();
    const pieces = PIECES.map((piece) => ({ ...piece, locked: true }));
    const locked = { ...HEADER, primaries: HEADER.primaries.map((primary) => ({ ...primary, pieces })) };
    expect(faultsOf(locked, move, {})).toContainEqual(expect.stringMatching(/^touches held/));
    expect(faultsOf(HEADER, move, { maxJoints: 0 })).toContainEqual(expect.stringMatching(/^takes \d joints/));
  });

  it('that tells a wrong length is found out', () => {
    expect(faultsOf(HEADER, { ...soundMove(), lengthMm: 1 }, {})).toEqual([expect.stringMatching(/^says 1, is/)]);
  });
});
