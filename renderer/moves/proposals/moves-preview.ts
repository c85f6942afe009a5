/** A header as it would be after a move, beside the header as it is; nothing of it is in the document. */

import {
  applyEdit,
  type Header,
  type MatchReport,
  matchHeader,
  type Piece,
  type Primary,
} from '../../../core/index.ts';
import { type PieceMarks, pieceMarks } from './piece-marks.ts';
import type { Proposal } from './proposal.ts';

export interface MovesPreview {
  /** The header that it is a preview for: shown only while that is the one in hand. */
  readonly before: Header;
  readonly after: Header;
  readonly report: MatchReport;
  readonly marks: PieceMarks;
  /** Pieces that are there before and after and differ, as they would be, by id. */
  readonly changed: ChangedPieces;
}

export type ChangedPieces = ReadonlyMap<string, Piece>;

export const NO_CHANGES: ChangedPieces = new Map();

/** Null when there is nothing to apply, or it no longer fits the header. */
export function previewOf(proposal: Proposal | null, header: Header): MovesPreview | null {
  if (proposal === null || proposal.edit === null) return null;
  const applied = applyEdit(header, proposal.edit);
  if (!applied.ok) return null;
  const after = applied.value.header;
  const marks = pieceMarks(header, proposal.moves);
  return { before: header, after, report: matchHeader(after), marks, changed: changedPieces(header, after) };
}

/** Pieces that an edit left alone are the same objects as before. */
function changedPieces(before: Header, after: Header): ChangedPieces {
  const pieces = (header: Header) => header.primaries.flatMap((primary) => primary.pieces);
  const old = new Map(pieces(before).map((piece) => [piece.id, piece]));
  return new Map(
    pieces(after)
      .filter((piece) => old.has(piece.id) && old.get(piece.id) !== piece)
      .map((piece) => [piece.id, piece]),
  );
}

/**
 * What a preview puts at the end of a primary, in order: its pieces from the first on that are not there now. Empty where some that are there now come after that,
 * which the rows of those pieces show.
 */
export function proposedPieces(preview: MovesPreview | null, { id, pieces }: Primary): readonly Piece[] {
  const after = preview?.after.primaries.find((primary) => primary.id === id)?.pieces ?? [];
  const now = new Set(pieces.map((piece) => piece.id));
  const first = after.findIndex((piece) => !now.has(piece.id));
  const tail = first === -1 ? [] : after.slice(first);
  return tail.some((piece) => now.has(piece.id)) ? [] : tail;
}
