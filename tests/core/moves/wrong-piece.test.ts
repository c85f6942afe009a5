/** The one figure that is wrong, planted and named. */

import { describe, expect, it } from 'vitest';
import type { Piece } from '../../../core/header/header.ts';
import { describeWrongPiece } from '../../../core/moves/words/describe-wrong-piece.ts';
import { type WrongFigure, wrongPieces } from '../../../core/moves/wrong-piece.ts';
import { millimetres, mmOf } from '../../../core/units/length.ts';
import { seededRandom } from '../path/made-primaries.ts';
import { fittedHeader, lengthOf, MOVE_SETTINGS, pick, shopPrimary } from './made-headers.ts';

const PLANTED = 200;

/** The piece with one figure off by what a person may misread or mistype; null when the piece has no such figure. */
function spoiled(piece: Piece, figure: WrongFigure, random: () => number): Piece | null {
  const sign = random() < 0.5 ? -1 : 1;
  if (piece.kind === 'straight') {
    const length = mmOf(piece.length) + sign * (5 + random() * 20);
    return figure === 'length' && length > 2 ? { ...piece, length: millimetres(length) } : null;
  }
  if (figure === 'clocking') return { ...piece, clockingDeg: (piece.clockingDeg ?? 0) + sign * (5 + random() * 170) };
  const angleDeg = piece.angleDeg + sign * (3 + random() * 20);
  if (figure === 'angle') return angleDeg > 2 && angleDeg < 180 ? { ...piece, angleDeg } : null;
  return figure === 'clr' ? { ...piece, clr: millimetres(mmOf(piece.clr) + sign * (6 + random() * 20)) } : null;
}

describe('the wrong piece', () => {
  it.each<WrongFigure>(['clocking', 'angle', 'length', 'clr'])(
    `is named in ${PLANTED} of ${PLANTED} primaries with one %s wrong`,
    (figure) => {
      const faults: string[] = [];
      let planted = 0;
      for (let seed = 1; planted < PLANTED; seed += 1) {
        const random = seededRandom(seed * 65_537);
        const right = shopPrimary({ pieces: 9, random });
        const at = Math.floor(random() * right.pieces.length);
        const wrong = spoiled(right.pieces[at] as Piece, figure, random);
        if (wrong === null) continue;
        const primary = { ...right, pieces: right.pieces.with(at, wrong) };
        const header = fittedHeader(primary, { targetMm: lengthOf(right), fitted: right });
        // What moves the end by less than is allowed at the inlet cannot be told.
        const found = wrongPieces(header, 'own');
        planted += 1;
        const [first] = found;
        if (first?.pieceIndex !== at || first.figure !== figure) {
          faults.push(`seed ${seed}: ${figure} of ${at}, named ${first?.figure} of ${first?.pieceIndex}`);
        }
      }
      expect(faults).toEqual([]);
    },
  );

  it('is none where the end is not known to be wrong', () => {
    const primary = shopPrimary({ pieces: 6, random: seededRandom(pick(() => 0, [3])) });
    const header = fittedHeader(primary, { targetMm: lengthOf(primary) });
    expect(wrongPieces({ ...header, primaries: [{ ...primary, inletId: null }] }, 'own')).toEqual([]);
    expect(wrongPieces(header, 'other')).toEqual([]);
  });

  it('is said with its figure', () => {
    const wrong = { pieceIndex: 3, gapMm: 0.1, tiltDeg: 0 };
    const said = (figure: WrongFigure, from: number, to: number) =>
      describeWrongPiece({ ...wrong, figure, from, to }, MOVE_SETTINGS.display).replaceAll('\u2009', ' ');
    expect(said('clocking', 90, 455.02)).toBe('Piece 4 alone would explain it: clocked 95° rather than 90°.');
    expect(said('angle', 45, 40)).toBe('Piece 4 alone would explain it: 40° rather than 45°.');
    expect(said('length', 60, 50)).toBe('Piece 4 alone would explain it: 50.0 mm long rather than 60.0 mm.');
    expect(said('clr', 76, 90)).toBe('Piece 4 alone would explain it: of 90.0 mm CLR rather than 76.0 mm.');
  });
});
