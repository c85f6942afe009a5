import { describe, expect, it } from 'vitest';
import type { Header } from '../../../core/header/header.ts';
import type { MoveChange } from '../../../core/moves/move.ts';
import { describeMoveChange } from '../../../core/moves/words/describe-move.ts';
import { inches, millimetres } from '../../../core/units/length.ts';
import { ALONG_X, bend, primaryOf, straight } from '../path/made-primaries.ts';
import { fittedHeader, MOVE_SETTINGS } from './made-headers.ts';

const PIECES = [straight(60), bend(76, 90, 0), straight(40), bend(76, 45, 90), bend(76, 90, 0), straight(60)];
const PRIMARY = primaryOf(PIECES, { id: 'own', port: ALONG_X });
const HEADER = fittedHeader(PRIMARY, { targetMm: 500 });
const IN_INCHES: Header = {
  ...HEADER,
  settings: { ...MOVE_SETTINGS, display: { kind: 'fraction', per: 16 } },
};

describe('a change of a move', () => {
  it.each<[MoveChange, string]>([
    [
      { kind: 'length', pieceIndex: 2, from: millimetres(40), to: millimetres(49.5) },
      'let 9.5 mm into the straight after the first bend (now 40.0 mm, then 49.5 mm)',
    ],
    [
      { kind: 'length', pieceIndex: 5, from: millimetres(60), to: millimetres(50.25) },
      'take 9.75 mm out of the straight after the last bend (now 60.0 mm, then 50.25 mm)',
    ],
    [
      { kind: 'takeOut', pieceIndex: 0, from: millimetres(60) },
      'take out the straight before the first bend (60.0 mm)',
    ],
    [
      { kind: 'letIn', joint: 4, length: millimetres(20) },
      'let in a straight of 20.0 mm between the second and the third bend',
    ],
    [{ kind: 'clocking', pieceIndex: 3, fromDeg: 90, toDeg: 84.5 }, 're-clock the second bend from 90° to 84.5°'],
    [{ kind: 'angle', pieceIndex: 4, fromDeg: 90, toDeg: 84.5 }, 'cut the third bend down from 90° to 84.5°'],
    [{ kind: 'angle', pieceIndex: 3, fromDeg: 45, toDeg: 50 }, 'replace the second bend by one of 50° (now 45°)'],
  ])('is said as at the bench: %o', (change, words) => {
    expect(describeMoveChange(change, HEADER, 'own').replaceAll('\u2009', ' ')).toBe(words);
  });

  it('is said in the display unit, and finer where the saw needs it', () => {
    const change: MoveChange = { kind: 'length', pieceIndex: 2, from: inches(2), to: inches(2 + 25 / 64) };
    const words = describeMoveChange(change, IN_INCHES, 'own').replaceAll('\u2009', ' ');
    expect(words).toBe('let 25/64" into the straight after the first bend (now 2", then 2 25/64")');
  });
});
