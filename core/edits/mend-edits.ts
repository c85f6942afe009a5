/** Edits that follow from a comparison: a joint turned, or one difference made as it is on the reference. */

import type { Primary } from '../header/header.ts';
import type { Comparison, PieceDifference } from '../path/banks/compare-primaries.ts';
import { mendingOf, modelOf } from '../path/banks/mending.ts';
import type { JointTurn } from '../path/ends/single-joint.ts';
import { wrapDeg } from '../path/vector.ts';
import { roundedTo } from '../units/angle.ts';
import type { Edit } from './edit.ts';
import { asNewPiece, replacePieceEdit } from './piece-edits.ts';

/** The turn added to the bend's clocking, to the hundredth of a degree and within half a turn; null when that is no bend. */
export function reclockEdit(primary: Primary, turn: JointTurn): Edit | null {
  const piece = primary.pieces.find(({ id }) => id === turn.pieceId);
  if (piece === undefined || piece.kind === 'straight') return null;
  const clockingDeg = roundedTo(wrapDeg((piece.clockingDeg ?? 0) + turn.turnDeg), 2);
  return replacePieceEdit(primary, { ...piece, clockingDeg });
}

/** Two primaries with what differs between them. */
export interface Compared {
  readonly reference: Primary;
  readonly other: Primary;
  readonly comparison: Comparison;
}

/**
 * Makes the one difference as it is on the reference, built to the hand of the other; null when there is nothing to make.
 * `newId` is for a piece that the other primary lacks: it comes in planned.
 */
export function mendEdit(compared: Compared, difference: PieceDifference, newId: string): Edit | null {
  const { reference, other, comparison } = compared;
  const mending = mendingOf(modelOf(reference, comparison.isMirrored), other, difference);
  if (mending === null) return null;
  if (mending.kind === 'replace') return replacePieceEdit(other, mending.piece);
  if (mending.kind === 'insert') {
    return { kind: 'addPiece', primaryId: other.id, piece: asNewPiece(mending.piece, newId), at: mending.at };
  }
  const gone = other.pieces[mending.index];
  return gone === undefined ? null : { kind: 'removePiece', primaryId: other.id, pieceId: gone.id };
}
