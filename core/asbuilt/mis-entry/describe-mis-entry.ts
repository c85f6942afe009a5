/** Says which entry may be wrong, and how. */

import type { Piece } from '../../header/header.ts';
import { assertNever } from '../../result.ts';
import { formatAngle } from '../../units/format-angle.ts';
import { formatLength } from '../../units/format-length.ts';
import { typedText } from '../../units/format-typed.ts';
import { mmOf } from '../../units/length.ts';
import type { LengthStyle } from '../../units/length-style.ts';
import type { Suspicion } from './mis-entry.ts';

/** "Piece 4: 90° rather than 45°", "A straight of 2 1/4" was missed after piece 4", "Piece 3 was entered twice". */
export function describeMisEntry(suspicion: Suspicion, style: LengthStyle): string {
  const { kind, pieceIndex, entered, meant } = suspicion;
  const number = pieceIndex + 1;
  if (meant === null) return `Piece ${number} was entered twice, or is one too many`;
  if (entered === null) return `${newPieceWords(meant, style)} was missed${placeWords(pieceIndex)}`;
  switch (kind) {
    case 'angle':
      return `Piece ${number}: ${angleWords(meant)} rather than ${angleWords(entered)}`;
    case 'clr':
      return `Piece ${number}: CLR ${clrWords(meant, style)} rather than ${clrWords(entered, style)}`;
    case 'fraction':
    case 'unit':
      return `Piece ${number}: ${typedWords(meant)} rather than ${typedWords(entered)}`;
    case 'missed':
    case 'twice':
      return `Piece ${number}`;
    default:
      return assertNever(kind);
  }
}

function placeWords(pieceIndex: number): string {
  return pieceIndex === 0 ? ' before piece 1' : ` after piece ${pieceIndex}`;
}

function newPieceWords(piece: Piece, style: LengthStyle): string {
  if (piece.kind === 'straight') return `A straight of ${formatLength(mmOf(piece.length), style)}`;
  const clocking = piece.clockingDeg === null ? '' : `, clocked ${formatAngle(piece.clockingDeg)}`;
  return `A bend of ${formatAngle(piece.angleDeg)}, CLR ${formatLength(mmOf(piece.clr), style)}${clocking}`;
}

const angleWords = (piece: Piece) => (piece.kind === 'straight' ? '' : formatAngle(piece.angleDeg));
const clrWords = (piece: Piece, style: LengthStyle) =>
  piece.kind === 'straight' ? '' : formatLength(mmOf(piece.clr), style);
/** As typed, so that a slip of the unit is seen for what it is. */
const typedWords = (piece: Piece) =>
  piece.kind === 'straight' ? typedText(piece.length) : `CLR ${typedText(piece.clr)}`;
