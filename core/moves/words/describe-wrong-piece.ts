/** Says which one figure would explain that an end misses its inlet. */

import { assertNever } from '../../result.ts';
import { formatAngle } from '../../units/format-angle.ts';
import { formatLength } from '../../units/format-length.ts';
import type { LengthStyle } from '../../units/length-style.ts';
import type { WrongPiece } from '../wrong-piece.ts';

/** "Piece 4 alone would explain it: clocked 95° rather than 90°." */
export function describeWrongPiece(wrong: WrongPiece, style: LengthStyle): string {
  return `Piece ${wrong.pieceIndex + 1} alone would explain it: ${figureWords(wrong, style)}.`;
}

function figureWords({ figure, from, to }: WrongPiece, style: LengthStyle): string {
  const angle = (deg: number) => formatAngle(Math.round(deg * 10) / 10);
  switch (figure) {
    case 'clocking':
      return `clocked ${angle(wrapped(to))} rather than ${angle(from)}`;
    case 'angle':
      return `${angle(to)} rather than ${angle(from)}`;
    case 'length':
      return `${formatLength(to, style)} long rather than ${formatLength(from, style)}`;
    case 'clr':
      return `of ${formatLength(to, style)} CLR rather than ${formatLength(from, style)}`;
    default:
      return assertNever(figure);
  }
}

function wrapped(deg: number): number {
  return deg - 360 * Math.round(deg / 360);
}
