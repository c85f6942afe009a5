/** Pieces of a cut plan by their names there: where each stands in its header, and how it is written on the tube. */

import { formatAngle, type LengthStyle, type Piece, type PlacedPiece } from '../../../core/index.ts';
import { cutWords, pieceName } from '../../ui/words/piece-words.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';

export type PlacedPieces = ReadonlyMap<string, PlacedPiece>;

export function byId(pieces: readonly PlacedPiece[]): PlacedPieces {
  return new Map(pieces.map((placed) => [placed.id, placed]));
}

/** `2-5`: the fifth piece of primary 2. Short enough for a paint pen on a tube; `Left bank 2-5` where several headers are cut together. */
export function pieceMark({ headerName, primaryName, pieceNumber }: PlacedPiece): string {
  const mark = `${primaryName}-${pieceNumber}`;
  return headerName === null ? mark : `${headerName} ${mark}`;
}

/** The id of the header that a piece of a plan belongs to. */
export function headerOfPiece(plannedId: string): string {
  return plannedId.slice(0, plannedId.indexOf(':'));
}

/** `Primary 2, piece 5: bend 90°, CLR 3"`. */
export function pieceWords(placed: PlacedPiece, style: LengthStyle): string {
  const { piece, headerName, primaryName, pieceNumber } = placed;
  const header = headerName === null ? '' : `${headerName}, `;
  return `${header}${primaryTitle(primaryName)}, piece ${pieceNumber}: ${sizeWords(piece, style)}`;
}

export function sizeWords(piece: Piece, style: LengthStyle): string {
  if (piece.kind === 'straight') return `${pieceName(piece)} ${cutWords(piece.length, style)}`;
  return `${pieceName(piece)} ${formatAngle(piece.angleDeg)}, CLR ${cutWords(piece.clr, style)}`;
}
