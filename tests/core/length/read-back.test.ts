/** What the entry line says it will do is what entering the line does. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import { addPiecesEdit } from '../../../core/edits/piece-edits.ts';
import { formatQuickEntry, shapeOf } from '../../../core/header/parts/quick-entry.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import { readBackEntry } from '../../../core/length/read-back.ts';
import { inches } from '../../../core/units/length.ts';
import { pieceArbitrary } from '../../generators/headers.ts';
import { expectWithin } from '../../tolerance.ts';
import { bend, header, primary, straight } from './header-of-pieces.ts';

const first = primary('1', [straight(inches(20)), bend(inches(3), 90)]);
const second = primary('2', [straight(inches(30))]);
const HEADER = header([first, second], { target: { kind: 'typed', length: inches(30) } });

describe('a line is read back before it is entered', () => {
  test('with its pieces and the length that the primary would have', () => {
    const back = readBackEntry(HEADER, { text: '2 1/2; b45 90', primary: first, at: 2, decimalComma: false });
    if (!back.ok) throw new Error('not read');
    expect(back.value.pieces.map(shapeOf)).toEqual([
      { kind: 'straight', length: inches(2.5) },
      { kind: 'bend', clr: inches(3), angleDeg: 45, clockingDeg: 90 },
    ]);
    // 20 + 3 pi/2 + 2.5 + 3 pi/4 in.
    expectWithin(back.value.match.lengthMm, (22.5 + 2.25 * Math.PI) * 25.4, 1e-9);
    expect(back.value.notes).toEqual([]);
  });

  test('= repeats the piece before the place where the line goes', () => {
    const back = readBackEntry(HEADER, { text: '=', primary: first, at: 1, decimalComma: false });
    expect(back.ok && back.value.pieces.map(shapeOf)).toEqual([{ kind: 'straight', length: inches(20) }]);
  });

  test('and one that cannot be read gives the reason that entering it would give', () => {
    const back = readBackEntry(HEADER, { text: 'b', primary: first, at: 2, decimalComma: false });
    expect(back).toMatchObject({ ok: false, problems: [{ reason: 'noAngle' }] });
  });
});

test('the match read back is the match after entering, whatever the piece and the place', () => {
  fc.assert(
    fc.property(pieceArbitrary(), fc.integer({ min: 0, max: 2 }), (piece, at) => {
      fc.pre(piece.kind !== 'straight' || piece.length.value > 0);
      const text = formatQuickEntry(piece, { unit: 'in', clr: inches(3) });
      const back = readBackEntry(HEADER, { text, primary: first, at, decimalComma: false });
      if (!back.ok) throw new Error(`${text} is not read`);
      const edit = addPiecesEdit(first, [{ ...piece, id: 'entered', state: 'tacked' }], at);
      const entered = edit === null ? null : applyEdit(HEADER, edit);
      if (entered?.ok !== true) throw new Error('not entered');
      const after = matchHeader(entered.value.header);
      expect(back.value.match).toEqual(after.primaries[0]);
    }),
    { numRuns: 300 },
  );
});
