/** A header as it would be after a move, beside the header as it is; nothing of it is in the document. */

import { applyEdit, type Header, type MatchReport, matchHeader } from '../../../core/index.ts';
import { type PieceMarks, pieceMarks } from './piece-marks.ts';
import type { Proposal } from './proposal.ts';

export interface MovesPreview {
  /** The header that it is a preview for: shown only while that is the one in hand. */
  readonly before: Header;
  readonly after: Header;
  readonly report: MatchReport;
  readonly marks: PieceMarks;
}

/** Null when there is nothing to apply, or it no longer fits the header. */
export function previewOf(proposal: Proposal | null, header: Header): MovesPreview | null {
  if (proposal === null || proposal.edit === null) return null;
  const applied = applyEdit(header, proposal.edit);
  if (!applied.ok) return null;
  const after = applied.value.header;
  return { before: header, after, report: matchHeader(after), marks: pieceMarks(header, proposal.moves) };
}
