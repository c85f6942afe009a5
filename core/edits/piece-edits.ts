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

/** The pieces after the first `kept` replaced by others, as one step; null where there are none and none go in. */
export function replaceRestEdit(primary: Primary, kept: number, pieces: readonly Piece[]): Edit | null {
  const primaryId = primary.id;
  const removed = primary.pieces
    .slice(kept)
    .map(({ id }): SingleEdit => ({ kind: 'removePiece', primaryId, pieceId: id }));
  const added = pieces.map((piece, index): SingleEdit => ({ kind: 'addPiece', primaryId, piece, at: kept + index }));
  return oneStep(`proposal for primary ${labelName(primary.name)}`, [...removed, ...added]);
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

/**
 * Moves pieces, kept in their order, to stand together before the piece that is now at place `before`; the count of pieces
 * is past the last. Null when that changes nothing or an id is not there.
 */
export function movePiecesEdit(primary: Primary, pieceIds: readonly string[], before: number): Edit | null {
  const { pieces } = primary;
  const moved = pieces.filter(({ id }) => pieceIds.includes(id));
  if (moved.length !== new Set(pieceIds).size) return null;
  const first = pieces.slice(0, before).filter((piece) => !moved.includes(piece)).length;
  const placed = moved.map((piece, index) => ({ piece, from: pieces.indexOf(piece), to: first + index }));
  // From the gap outwards, so that none is shifted from its place by one that is moved after it.
  const above = placed.filter(({ from }) => from < before).reverse();
  const below = placed.filter(({ from }) => from >= before);
  const edits = [...above, ...below]
    .filter(({ from, to }) => from !== to)
    .map(({ piece, to }): SingleEdit => ({ kind: 'movePiece', primaryId: primary.id, pieceId: piece.id, to }));
  return oneStep(`move ${moved.length} pieces of primary ${labelName(primary.name)}`, edits);
}

/**
 * Moves pieces one place towards the port (-1) or the collector (1), gathered beside the first or last of them; null at the
 * end of the list.
 */
export function shiftPiecesEdit(primary: Primary, pieceIds: readonly string[], by: -1 | 1): Edit | null {
  const places = pieceIds.map((pieceId) => primary.pieces.findIndex(({ id }) => id === pieceId));
  const [first, last] = [Math.min(...places), Math.max(...places)];
  if (places.length === 0 || first < 0) return null;
  const before = by < 0 ? first - 1 : last + 2;
  return before < 0 || before > primary.pieces.length ? null : movePiecesEdit(primary, pieceIds, before);
}

/**
 * The same pieces again, in order, right after the last of them, each as `pieceCopy` makes it; null for none.
 */
export function duplicatePiecesEdit(primary: Primary, pieceIds: readonly string[], newId: () => string): Edit | null {
  const originals = primary.pieces.filter(({ id }) => pieceIds.includes(id));
  const last = originals.at(-1);
  if (last === undefined) return null;
  const copies = originals.map((piece) => pieceCopy(piece, newId()));
  return addPiecesEdit(primary, copies, primary.pieces.indexOf(last) + 1);
}

/**
 * A copy in the state that the piece is in: a shortcut for entering another like it. Only a weld cannot be copied, so the copy
 * of a welded piece is planned. Nobody has locked the copy.
 */
export function pieceCopy(piece: Piece, id: string): Piece {
  return piece.state === 'welded' ? asNewPiece(piece, id) : { ...piece, id, locked: false };
}

/** A piece of the same shape that is yet to be made: whatever the other was, this one is only planned, and locked by nobody. */
export function asNewPiece(piece: Piece, id: string): Piece {
  return { ...piece, id, state: 'planned', locked: false };
}

/** The piece as it shall be, in the place of the one with its id. */
export function replacePieceEdit(primary: Primary, piece: Piece): SingleEdit {
  return { kind: 'replacePiece', primaryId: primary.id, piece };
}
