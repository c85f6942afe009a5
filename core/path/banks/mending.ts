/** What a primary becomes when one difference from another is made as it is there. */

import type { Piece, Primary } from '../../header/header.ts';
import { alignPieces } from './align-pieces.ts';
import { mirrorPiece } from './mirror.ts';

export type DifferenceKind = 'kind' | 'missing' | 'extra' | 'length' | 'clr' | 'angle' | 'clocking' | 'pies';

/** Where a difference is. */
export interface DifferencePlace {
  readonly kind: DifferenceKind;
  /** Places in the two primaries, from 0; null where a primary has no such piece. */
  readonly indexInReference: number | null;
  readonly indexInOther: number | null;
}

/** The reference as it is to be compared: built to the other hand where the other primary is. */
export function modelOf(reference: Primary, isMirrored: boolean): Primary {
  return isMirrored ? { ...reference, pieces: reference.pieces.map((piece) => mirrorPiece(piece)) } : reference;
}

/** One change to the list of pieces. */
export type Mending =
  | { readonly kind: 'remove'; readonly index: number }
  | { readonly kind: 'insert'; readonly at: number; readonly piece: Piece }
  | { readonly kind: 'replace'; readonly index: number; readonly piece: Piece };

/**
 * What makes this one difference go. A piece that is replaced stays the piece that it is: its id, state, lock and note stay, and
 * so do all its measures but the one that differs. Null when the difference is none of these primaries.
 */
export function mendingOf(model: Primary, other: Primary, difference: DifferencePlace): Mending | null {
  const { indexInReference, indexInOther, kind } = difference;
  const wanted = indexInReference === null ? undefined : model.pieces[indexInReference];
  const own = indexInOther === null ? undefined : other.pieces[indexInOther];
  if (own === undefined || indexInOther === null) {
    if (wanted === undefined) return null;
    return { kind: 'insert', at: insertionPlace(model, other, indexInReference ?? 0), piece: wanted };
  }
  if (wanted === undefined) return { kind: 'remove', index: indexInOther };
  return { kind: 'replace', index: indexInOther, piece: withMeasure(own, wanted, kind) };
}

/** The pieces with the mending made. */
export function mendedPieces(pieces: readonly Piece[], mending: Mending): readonly Piece[] {
  if (mending.kind === 'remove') return pieces.toSpliced(mending.index, 1);
  if (mending.kind === 'insert') return pieces.toSpliced(mending.at, 0, mending.piece);
  return pieces.with(mending.index, mending.piece);
}

/** Where in the other primary a piece that it lacks belongs: after the partner of the piece before it. */
function insertionPlace(model: Primary, other: Primary, indexInReference: number): number {
  const before = alignPieces(model.pieces, other.pieces).findLast(
    ([one, two]) => one !== null && two !== null && one < indexInReference,
  );
  return before === undefined ? 0 : (before[1] ?? 0) + 1;
}

function withMeasure(own: Piece, wanted: Piece, kind: DifferenceKind): Piece {
  const { id, state, locked, note } = own;
  const isOneMeasure = own.kind !== 'straight' && wanted.kind !== 'straight' && own.kind === wanted.kind;
  if (isOneMeasure && kind === 'clr') return { ...own, clr: wanted.clr };
  if (isOneMeasure && kind === 'angle') return { ...own, angleDeg: wanted.angleDeg };
  if (isOneMeasure && kind === 'clocking') return { ...own, clockingDeg: wanted.clockingDeg };
  return { ...wanted, id, state, locked, note };
}
