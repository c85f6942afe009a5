/** A piece in words, for labels on the strip and for the line that reads it out. */

import {
  cutWords,
  formatAngle,
  formatCut,
  formatLength,
  type LengthStyle,
  mmOf,
  type Piece,
  pieceName,
} from '../../../core/index.ts';

export { cutWords, pieceName } from '../../../core/index.ts';

/** What fits on the strip: the length of a straight, the angle of a bend. */
export function segmentLabel(piece: Piece, style: LengthStyle): string {
  return piece.kind === 'straight' ? formatCut(mmOf(piece.length), style).text : formatAngle(piece.angleDeg);
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
