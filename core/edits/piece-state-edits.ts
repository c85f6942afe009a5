/** Edits on how far pieces have come at the bench, on their locks, and on freeing what a move would need. */

import type { Header, Piece, PieceState, Primary } from '../header/header.ts';
import { labelName } from '../header/names.ts';
import { type Edit, oneStep } from './edit.ts';
import { replacePieceEdit } from './piece-edits.ts';

/** All of the pieces into one state, as one step; null when they are in it already. */
export function setStateEdit(primary: Primary, pieces: readonly Piece[], state: PieceState): Edit | null {
  const edits = pieces.filter((piece) => piece.state !== state).map((piece) => ({ ...piece, state }));
  const label = `${state}: ${edits.length} pieces of primary ${labelName(primary.name)}`;
  return oneStep(
    label,
    edits.map((piece) => replacePieceEdit(primary, piece)),
  );
}

/** Marks planned pieces, of whichever primaries, as cut in one step; null when none of them is planned. */
export function cutPiecesEdit({ primaries }: Header, isCut: (piece: Piece) => boolean): Edit | null {
  const edits = primaries.flatMap((primary) =>
    primary.pieces
      .filter((piece) => piece.state === 'planned' && isCut(piece))
      .map((piece) => replacePieceEdit(primary, { ...piece, state: 'cut' })),
  );
  return oneStep(`cut by plan: ${edits.length} pieces`, edits);
}

/** Locks or unlocks all of the pieces as one step; null when they are so already. */
export function setLockedEdit(primary: Primary, pieces: readonly Piece[], locked: boolean): Edit | null {
  const edits = pieces.filter((piece) => piece.locked !== locked).map((piece) => ({ ...piece, locked }));
  const label = `${locked ? 'lock' : 'unlock'} ${edits.length} pieces of primary ${labelName(primary.name)}`;
  return oneStep(
    label,
    edits.map((piece) => replacePieceEdit(primary, piece)),
  );
}

/** What stands in the way of a move and is in the document; places of pieces and joints in their primary, from 0. */
export interface HeldPieces {
  readonly lockedPieces: readonly number[];
  readonly weldedPieces: readonly number[];
  /** Joint `n` is the one before piece `n`. */
  readonly weldedJoints: readonly number[];
}

export interface FreeOffer {
  /** On the button. */
  readonly name: string;
  readonly edit: Edit;
}

/**
 * Takes locks off, and makes pieces tacked whose weld has been cut. A weld is between two welded pieces, so it is gone when the
 * piece after it counts as tacked again. Null when none of it is in the primary.
 */
export function freeOffer(primary: Primary, held: HeldPieces): FreeOffer | null {
  const isPiece = (index: number) => primary.pieces[index] !== undefined;
  const locked = inOrder(held.lockedPieces).filter(isPiece);
  const opened = inOrder([...held.weldedPieces, ...held.weldedJoints]).filter(isPiece);
  const touched = inOrder([...locked, ...opened]);
  const edits = touched.flatMap((index) => {
    const piece = primary.pieces[index];
    return piece === undefined ? [] : [replacePieceEdit(primary, freed(piece, locked.includes(index)))];
  });
  const edit = oneStep(`free ${piecesWords(touched)} of primary ${labelName(primary.name)}`, edits);
  return edit === null ? null : { name: freeingWords(locked, opened), edit };
}

function inOrder(indexes: readonly number[]): readonly number[] {
  return [...new Set(indexes)].sort((a, b) => a - b);
}

function freed(piece: Piece, isUnlocked: boolean): Piece {
  return {
    ...piece,
    locked: isUnlocked ? false : piece.locked,
    state: piece.state === 'welded' ? 'tacked' : piece.state,
  };
}

function freeingWords(locked: readonly number[], opened: readonly number[]): string {
  const unlock = `Unlock ${piecesWords(locked)}`;
  if (opened.length === 0) return unlock;
  const tack = `make ${piecesWords(opened)} tacked`;
  return locked.length === 0 ? `The weld is cut: ${tack}` : `${unlock} and ${tack}`;
}

/** More than these are counted, not listed. */
const MOST_LISTED = 6;

/** "piece 4", "pieces 4 and 6", "pieces 1, 2 and 5", "12 pieces". */
function piecesWords(indexes: readonly number[]): string {
  if (indexes.length > MOST_LISTED) return `${indexes.length} pieces`;
  const numbers = indexes.map((index) => String(index + 1));
  if (numbers.length === 1) return `piece ${numbers[0]}`;
  return `pieces ${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1)}`;
}
