/** Edits that put pieces into a primary, move them, change them and take them out. */

import type { Piece, Primary } from '../header/header.ts';
import { labelName } from '../header/names.ts';
import { type Edit, oneStep, type SingleEdit } from './edit.ts';

/** Adds pieces in order from place `at` on, as one step; null for none. */
export function addPiecesEdit(primary: Primary, pieces: readonly Piece[], at: number): Edit | null {
  const edits = pieces.map(
    (piece, index): SingleEdit => ({ kind: 'addPiece', primaryId: primary.id, piece, at: at + index }),
  );
  return oneStep(`add ${pieces.length} pieces to primary ${labelName(primary.name)}`, edits);
}

/** Removes pieces by id, as one step; null for none. */
export function removePiecesEdit(primary: Primary, pieceIds: readonly string[]): Edit | null {
  const edits = pieceIds.map((pieceId): SingleEdit => ({ kind: 'removePiece', primaryId: primary.id, pieceId }));
  return oneStep(`remove ${pieceIds.length} pieces from primary ${labelName(primary.name)}`, edits);
}

/** All pieces of a primary replaced by others, with whatever else belongs to that step before they go in. */
export function replaceAllPieces(
  primary: Primary,
  pieces: readonly Piece[],
  between: readonly SingleEdit[],
): readonly SingleEdit[] {
  return [
    ...primary.pieces.map(({ id }): SingleEdit => ({ kind: 'removePiece', primaryId: primary.id, pieceId: id })),
    ...between,
    ...pieces.map((piece, at): SingleEdit => ({ kind: 'addPiece', primaryId: primary.id, piece, at })),
  ];
}

/** Moves a piece by so many places; null where it would leave the list or there is no such piece. */
export function movePieceEdit(primary: Primary, pieceId: string, by: number): Edit | null {
  const from = primary.pieces.findIndex((piece) => piece.id === pieceId);
  const to = from + by;
  if (from === -1 || to < 0 || to >= primary.pieces.length) return null;
  return { kind: 'movePiece', primaryId: primary.id, pieceId, to };
}

/**
 * The same piece again, right after itself, in the state that it is in: a shortcut for entering another like it. Only a weld
 * cannot be copied, so the copy of a welded piece is planned. Null when there is no such piece.
 */
export function duplicatePieceEdit(primary: Primary, pieceId: string, newId: string): Edit | null {
  const at = primary.pieces.findIndex((piece) => piece.id === pieceId);
  const original = primary.pieces[at];
  if (original === undefined) return null;
  const piece = original.state === 'welded' ? asNewPiece(original, newId) : { ...original, id: newId, locked: false };
  return { kind: 'addPiece', primaryId: primary.id, piece, at: at + 1 };
}

/** A piece of the same shape that is yet to be made: whatever the other was, this one is only planned, and locked by nobody. */
export function asNewPiece(piece: Piece, id: string): Piece {
  return { ...piece, id, state: 'planned', locked: false };
}

/** The piece as it shall be, in the place of the one with its id. */
export function replacePieceEdit(primary: Primary, piece: Piece): SingleEdit {
  return { kind: 'replacePiece', primaryId: primary.id, piece };
}
