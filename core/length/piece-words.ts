/** A piece and its sizes in words. */

import type { Piece } from '../header/header.ts';
import { assertNever } from '../result.ts';
import { formatCut } from '../units/format-cut.ts';
import { type Length, mmOf } from '../units/length.ts';
import { type LengthStyle, unitOf } from '../units/length-style.ts';

export function pieceName(piece: Piece): string {
  switch (piece.kind) {
    case 'straight':
      return 'straight';
    case 'bend':
      return 'bend';
    case 'pieCut':
      return `pie cut, ${piece.pies} ${piece.pies === 1 ? 'pie' : 'pies'}`;
    default:
      return assertNever(piece);
  }
}

/** A size with its unit, as fine as it is cut, and with a sign in front where the nearest figure is not it: `4 29/32"`, `≈2 3/4"`. */
export function cutWords(length: Length, style: LengthStyle): string {
  const { text, fineness } = formatCut(mmOf(length), style);
  const unit = unitOf(style);
  return `${fineness === 'rounded' ? '≈' : ''}${text}${unit === 'in' ? '"' : ` ${unit}`}`;
}
