import { describe, expect, it } from 'vitest';
import type { Header } from '../../../core/header/header.ts';
import type { Move, MoveChange } from '../../../core/moves/move.ts';
import { describeMove } from '../../../core/moves/words/describe-move.ts';
import { inches, millimetres } from '../../../core/units/length.ts';
import { ALONG_X, bend, primaryOf, straight } from '../path/made-primaries.ts';
import { fittedHeader, MOVE_SETTINGS } from './made-headers.ts';

const PIECES = [straight(60), bend(76, 90, 0), straight(40), bend(76, 45, 90), bend(76, 90, 0), straight(60)];
const HEADER = fittedHeader(primaryOf(PIECES, { id: 'own', port: ALONG_X }), { targetMm: 500 });
const IN_INCHES: Header = { ...HEADER, settings: { ...MOVE_SETTINGS, display: { kind: 'fraction', per: 16 } } };

/** With what the words are made of. */
function moveOf(changes: readonly MoveChange[], endShiftAtMostMm: number | null = null): Move {
  return { primaryId: 'own', changes, endShiftAtMostMm } as Partial<Move> as Move;
}

function said(changes: readonly MoveChange[], header: Header = HEADER): string {
  return describeMove(moveOf(changes), header).replaceAll('\u2009', ' ');
}

/** The header with one piece in another state. */
function withState(index: number, state: 'planned' | 'welded'): Header {
  const primaries = HEADER.primaries.map((primary) => ({
    ...primary,
    pieces: primary.pieces.map((piece, at) => (at === index ? { ...piece, state } : piece)),
  }));
  return { ...HEADER, primaries };
}

describe('a change of a move', () => {
  it.each<[MoveChange, string]>([
    [
      { kind: 'length', pieceIndex: 2, from: millimetres(40), to: millimetres(49.5) },
      'Lengthen straight 3 by 9.5 mm, a new one of 49.5 mm',
    ],
    [
      { kind: 'length', pieceIndex: 5, from: millimetres(60), to: millimetres(50.25) },
      'Shorten straight 6 by 9.75 mm to 50.25 mm',
    ],
    [{ kind: 'takeOut', pieceIndex: 0, from: millimetres(60) }, 'Take out straight 1, 60.0 mm'],
    [{ kind: 'letIn', joint: 4, length: millimetres(20) }, 'Add a straight of 20.0 mm between pieces 4 and 5'],
    [
      { kind: 'letIn', joint: 0, length: millimetres(20) },
      'Lengthen straight 1 by a ring of 20.0 mm let in ahead of it',
    ],
    [{ kind: 'letIn', joint: 6, length: millimetres(50) }, 'Lengthen straight 6 by a piece of 50.0 mm let in after it'],
    [{ kind: 'clocking', pieceIndex: 3, fromDeg: 90, toDeg: 96 }, 'Re-clock bend 4 from 90° to 96°'],
    [{ kind: 'angle', pieceIndex: 4, fromDeg: 90, toDeg: 84.5 }, 'Trim bend 5 from 90° to 84.5°'],
    [{ kind: 'angle', pieceIndex: 3, fromDeg: 45, toDeg: 50 }, 'Replace bend 4, 45°, by one of 50°'],
    [
      { kind: 'swap', pieceIndex: 3, fromClr: millimetres(76), toClr: millimetres(102), fromDeg: 45, toDeg: 40 },
      'Swap bend 4, 45° at CLR 76.0 mm, for 40° at CLR 102.0 mm',
    ],
    [
      { kind: 'bendOut', pieceIndex: 3, angleDeg: 45, nextClockingDeg: 90 },
      'Take out bend 4, 45°, bend 5 then clocked 90°',
    ],
    [{ kind: 'bendOut', pieceIndex: 4, angleDeg: 90, nextClockingDeg: null }, 'Take out bend 5, 90°'],
    [
      { kind: 'bendIn', joint: 2, clr: millimetres(76), angleDeg: 12, clockingDeg: 30, nextClockingDeg: 60 },
      'Add a bend of 12°, CLR 76.0 mm, between pieces 2 and 3, clocked 30°, bend 4 then clocked 60°',
    ],
    [
      { kind: 'pies', pieceIndex: 1, fromPies: 6, toPies: 4, fromDeg: 90, toDeg: 60 },
      'Take 2 pies off pie-cut bend 2, from 90° to 60°',
    ],
    [
      { kind: 'bendPair', joint: 2, clr: millimetres(76), angleDeg: 12, clockingDeg: 30, nextClockingDeg: null },
      'Add two bends of 12°, CLR 76.0 mm, between pieces 2 and 3, clocked 30° and 180°',
    ],
    [
      {
        kind: 'kick',
        pieceIndex: 0,
        from: millimetres(60),
        before: millimetres(20),
        after: millimetres(0),
        clr: millimetres(66.7),
        angleDeg: 27,
        clockingDeg: 30,
        nextClockingDeg: null,
      },
      'Kick straight 1: 27°/54°/27°, CLR 66.7 mm, clocked 30°/180°/180°, leaving 20.0 mm of it before',
    ],
  ])('is said as at the bench: %o', (change, words) => {
    expect(said([change])).toBe(words);
  });

  it('what is welded turns with the bend, and what is planned is only planned anew', () => {
    const turned: MoveChange = { kind: 'clocking', pieceIndex: 3, fromDeg: 90, toDeg: 96 };
    expect(said([turned], withState(3, 'welded'))).toBe('Turn bend 4 and what is welded to it from 90° to 96°');
    const longer: MoveChange = { kind: 'angle', pieceIndex: 3, fromDeg: 45, toDeg: 50 };
    expect(said([longer], withState(3, 'planned'))).toBe('Plan bend 4 at 50°, not 45°');
    const straighter: MoveChange = { kind: 'length', pieceIndex: 2, from: millimetres(40), to: millimetres(49.5) };
    expect(said([straighter], withState(2, 'planned'))).toBe('Lengthen straight 3 by 9.5 mm to 49.5 mm');
    const fewer: MoveChange = { kind: 'pies', pieceIndex: 1, fromPies: 3, toPies: 2, fromDeg: 90, toDeg: 60 };
    expect(said([fewer], withState(1, 'planned'))).toBe('Plan pie-cut bend 2 with 2 pies, 60°');
  });

  it('is said in the display unit, and finer where the saw needs it', () => {
    const change: MoveChange = { kind: 'length', pieceIndex: 2, from: inches(2), to: inches(2 + 25 / 64) };
    expect(said([change], IN_INCHES)).toBe('Lengthen straight 3 by 25/64", a new one of 2 25/64"');
  });
});

describe('a move', () => {
  const CHANGES: readonly MoveChange[] = [
    { kind: 'length', pieceIndex: 0, from: millimetres(60), to: millimetres(70) },
    { kind: 'length', pieceIndex: 2, from: millimetres(40), to: millimetres(30) },
  ];

  it('is one sentence, in order along the tube', () => {
    expect(said(CHANGES)).toBe(
      'Lengthen straight 1 by 10.0 mm, a new one of 70.0 mm; shorten straight 3 by 10.0 mm to 30.0 mm',
    );
  });

  it('says how far the end shifts where the end is not known', () => {
    expect(describeMove(moveOf(CHANGES, 4), HEADER)).toMatch(/; the end shifts by 4\.0 mm at most$/);
  });
});
