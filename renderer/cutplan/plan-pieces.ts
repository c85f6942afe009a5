/** Pieces of a cut plan by their names there: where each stands in its header, and how it is written on the tube. */

import { cutPieceId, formatAngle, type Header, type LengthStyle, type Piece, type Primary } from '../../core/index.ts';
import { cutWords, pieceName } from '../ui/words/piece-words.ts';
import { primaryTitle } from '../ui/words/verdict-words.ts';

export interface PlacedPiece {
  readonly piece: Piece;
  readonly primary: Primary;
  /** From 1, as the bench counts them. */
  readonly pieceNumber: number;
}

export type PlacedPieces = ReadonlyMap<string, PlacedPiece>;

export function placedPieces(header: Header): PlacedPieces {
  return new Map(
    header.primaries.flatMap((primary) =>
      primary.pieces.map((piece, index): [string, PlacedPiece] => [
        cutPieceId(header, piece),
        { piece, primary, pieceNumber: index + 1 },
      ]),
    ),
  );
}

/** `2-5`: the fifth piece of primary 2. Short enough for a paint pen on a tube. */
export function pieceMark({ primary, pieceNumber }: PlacedPiece): string {
  return `${primary.name}-${pieceNumber}`;
}

/** `Primary 2, piece 5: bend 90°, CLR 3"`. */
export function pieceWords({ piece, primary, pieceNumber }: PlacedPiece, style: LengthStyle): string {
  return `${primaryTitle(primary.name)}, piece ${pieceNumber}: ${sizeWords(piece, style)}`;
}

export function sizeWords(piece: Piece, style: LengthStyle): string {
  if (piece.kind === 'straight') return `${pieceName(piece)} ${cutWords(piece.length, style)}`;
  return `${pieceName(piece)} ${formatAngle(piece.angleDeg)}, CLR ${cutWords(piece.clr, style)}`;
}
