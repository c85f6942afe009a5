/** Steps that take several edits: removing what is pointed at, marking a whole primary, duplicating a piece. */

import type { Collector, Header, Piece, PieceState, Primary } from '../header/header.ts';
import type { BatchEdit, SingleEdit } from './edit.ts';

/** A label holds 120 characters, and a name may fill them all; cut between whole characters. */
function shortName(name: string): string {
  const letters = [...name];
  return letters.length <= 40 ? name : `${letters.slice(0, 40).join('')}\u2026`;
}

/** Removes a primary, after clearing the target and the inlets that point at it. An unknown id gives an edit that is refused. */
export function removePrimaryEdit(header: Header, primaryId: string): BatchEdit {
  const { target } = header.settings;
  const clearTarget: readonly SingleEdit[] =
    target.kind === 'primary' && target.primaryId === primaryId
      ? [{ kind: 'setSettings', set: { target: { kind: 'longest' } } }]
      : [];
  const clearInlets = header.collectors.flatMap((collector) => withoutEndOf(collector, primaryId));
  const name = header.primaries.find((primary) => primary.id === primaryId)?.name ?? primaryId;
  return {
    kind: 'batch',
    label: `remove primary ${shortName(name)}`,
    edits: [...clearTarget, ...clearInlets, { kind: 'removePrimary', primaryId }],
  };
}

function withoutEndOf(collector: Collector, primaryId: string): readonly SingleEdit[] {
  const inlets = collector.inlets.map((inlet) =>
    inlet.place?.kind === 'endOf' && inlet.place.primaryId === primaryId ? { ...inlet, place: null } : inlet,
  );
  const isChanged = inlets.some((inlet, index) => inlet !== collector.inlets[index]);
  return isChanged ? [{ kind: 'replaceCollector', collector: { ...collector, inlets } }] : [];
}

/** Removes a collector, after freeing the primaries that end in it. */
export function removeCollectorEdit(header: Header, collectorId: string): BatchEdit {
  const collector = header.collectors.find((candidate) => candidate.id === collectorId);
  const inletIds = new Set(collector?.inlets.map((inlet) => inlet.id));
  const free = header.primaries
    .filter((primary) => primary.inletId !== null && inletIds.has(primary.inletId))
    .map((primary): SingleEdit => ({ kind: 'setPrimary', primaryId: primary.id, set: { inletId: null } }));
  return {
    kind: 'batch',
    label: `remove collector ${shortName(collector?.name ?? collectorId)}`,
    edits: [...free, { kind: 'removeCollector', collectorId }],
  };
}

/** Puts every piece of a primary into one state; pieces that are in it already are left out. */
export function markPiecesEdit(primary: Primary, state: PieceState): BatchEdit {
  return {
    kind: 'batch',
    label: `mark primary ${shortName(primary.name)} ${state}`,
    edits: primary.pieces
      .filter((piece) => piece.state !== state)
      .map((piece): SingleEdit => ({ kind: 'replacePiece', primaryId: primary.id, piece: { ...piece, state } })),
  };
}

/** Puts a copy of the piece at `index` right after it; null when there is no such piece. */
export function duplicatePieceEdit(primary: Primary, index: number, id: string): SingleEdit | null {
  const piece = primary.pieces[index];
  if (!piece) return null;
  return { kind: 'addPiece', primaryId: primary.id, piece: copiedPiece(piece, id), at: index + 1 };
}

/** A copy has the shape of the piece, but was not locked or welded by anyone. */
function copiedPiece(piece: Piece, id: string): Piece {
  return { ...piece, id, locked: false, state: piece.state === 'welded' ? 'tacked' : piece.state };
}

/** Adds pieces in order from place `at` on, as one step. */
export function addPiecesEdit(primary: Primary, pieces: readonly Piece[], at: number): BatchEdit {
  return {
    kind: 'batch',
    label: `add ${pieces.length} ${pieces.length === 1 ? 'piece' : 'pieces'} to primary ${shortName(primary.name)}`,
    edits: pieces.map(
      (piece, index): SingleEdit => ({ kind: 'addPiece', primaryId: primary.id, piece, at: at + index }),
    ),
  };
}

/** Removes pieces by id, as one step. */
export function removePiecesEdit(primary: Primary, pieceIds: readonly string[]): BatchEdit {
  return {
    kind: 'batch',
    label: `remove ${pieceIds.length} ${pieceIds.length === 1 ? 'piece' : 'pieces'} from primary ${shortName(primary.name)}`,
    edits: pieceIds.map((pieceId): SingleEdit => ({ kind: 'removePiece', primaryId: primary.id, pieceId })),
  };
}
