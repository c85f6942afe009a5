/** A piece in words, for labels on the strip and for the line that reads it out. */

import {
  assertNever,
  formatAngle,
  formatCut,
  formatLength,
  type Length,
  type LengthStyle,
  mmOf,
  type Piece,
  unitOf,
} from '../../../core/index.ts';

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

/** What fits on the strip: the length of a straight, the angle of a bend. */
export function segmentLabel(piece: Piece, style: LengthStyle): string {
  return piece.kind === 'straight' ? formatCut(mmOf(piece.length), style).text : formatAngle(piece.angleDeg);
}

/** A size with its unit, as fine as it is cut, and with a sign in front where the nearest figure is not it: `4 29/32"`, `≈2 3/4"`. */
export function cutWords(length: Length, style: LengthStyle): string {
  const { text, fineness } = formatCut(mmOf(length), style);
  const unit = unitOf(style);
  return `${fineness === 'rounded' ? '≈' : ''}${text}${unit === 'in' ? '"' : ` ${unit}`}`;
}

export function clockingWords(clockingDeg: number | null): string {
  return clockingDeg === null ? 'not clocked' : `clocked ${formatAngle(clockingDeg)}`;
}

/** Everything about a piece in one line: `Piece 2: bend 90°, CLR 3", clocked 0°, 4 11/16" long, run 6 15/16", tacked`. */
export function readOutPiece(
  piece: Piece,
  place: { index: number; lengthMm: number; runMm: number },
  style: LengthStyle,
): string {
  const run = `run ${formatLength(place.runMm, style)}`;
  const length = formatLength(place.lengthMm, style);
  const start = `Piece ${place.index + 1}: ${pieceName(piece)}`;
  if (piece.kind === 'straight') return `${start} ${cutWords(piece.length, style)}, ${run}, ${piece.state}`;
  const shape = `${formatAngle(piece.angleDeg)}, CLR ${cutWords(piece.clr, style)}`;
  return `${start} ${shape}, ${clockingWords(piece.clockingDeg)}, ${length} long, ${run}, ${piece.state}`;
}
