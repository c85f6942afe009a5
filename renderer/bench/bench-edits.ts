/** The edits behind the commands of the bench: from what a person means to what core applies. */

import {
  type BatchEdit,
  type Edit,
  type Header,
  PIECE_STATES,
  type Piece,
  type PieceState,
  type Primary,
  type SingleEdit,
} from '../../core/index.ts';

/** One step however many pieces; null for none. */
export function addPiecesEdit(primary: Primary, pieces: readonly Piece[], at: number): Edit | null {
  const edits: SingleEdit[] = pieces.map((piece, index) => ({
    kind: 'addPiece',
    primaryId: primary.id,
    piece,
    at: at + index,
  }));
  return oneStep(`add ${pieces.length} pieces to primary ${shortName(primary)}`, edits);
}

export function removePiecesEdit(primary: Primary, pieceIds: readonly string[]): Edit | null {
  const edits: SingleEdit[] = pieceIds.map((pieceId) => ({ kind: 'removePiece', primaryId: primary.id, pieceId }));
  return oneStep(`remove ${pieceIds.length} pieces of primary ${shortName(primary)}`, edits);
}

/** Long names would not fit the label of a step. */
function shortName(primary: Primary): string {
  return primary.name.slice(0, 60);
}

function oneStep(label: string, edits: readonly SingleEdit[]): Edit | null {
  const [first] = edits;
  if (first === undefined) return null;
  return edits.length === 1 ? first : { kind: 'batch', label, edits };
}

/** Moves a piece by so many places; null where it would leave the list or there is no such piece. */
export function movePieceEdit(primary: Primary, pieceId: string, by: number): Edit | null {
  const from = primary.pieces.findIndex((piece) => piece.id === pieceId);
  const to = from + by;
  if (from === -1 || to < 0 || to >= primary.pieces.length) return null;
  return { kind: 'movePiece', primaryId: primary.id, pieceId, to };
}

/** The same piece again, right after itself. */
export function duplicatePieceEdit(primary: Primary, pieceId: string, newId: string): Edit | null {
  const at = primary.pieces.findIndex((piece) => piece.id === pieceId);
  const piece = primary.pieces[at];
  if (piece === undefined) return null;
  return { kind: 'addPiece', primaryId: primary.id, piece: { ...piece, id: newId, locked: false }, at: at + 1 };
}

/** The state after this one; after welded comes planned again. */
export function nextState(state: PieceState): PieceState {
  return PIECE_STATES[(PIECE_STATES.indexOf(state) + 1) % PIECE_STATES.length] ?? 'planned';
}

/** All of the pieces into one state, as one step; null when they are in it already. */
export function setStateEdit(primary: Primary, pieces: readonly Piece[], state: PieceState): Edit | null {
  const edits: SingleEdit[] = pieces
    .filter((piece) => piece.state !== state)
    .map((piece) => ({ kind: 'replacePiece', primaryId: primary.id, piece: { ...piece, state } }));
  return oneStep(`${state}: ${edits.length} pieces of primary ${shortName(primary)}`, edits);
}

/** Locks or unlocks all of the pieces as one step; null when they are so already. */
export function setLockedEdit(primary: Primary, pieces: readonly Piece[], locked: boolean): Edit | null {
  const edits: SingleEdit[] = pieces
    .filter((piece) => piece.locked !== locked)
    .map((piece) => ({ kind: 'replacePiece', primaryId: primary.id, piece: { ...piece, locked } }));
  return oneStep(`${locked ? 'lock' : 'unlock'} ${edits.length} pieces of primary ${shortName(primary)}`, edits);
}

/** The name that the next primary gets: the least whole number that is not taken. */
export function nextPrimaryName(header: Header): string {
  const taken = new Set(header.primaries.map((primary) => primary.name));
  let number = 1;
  while (taken.has(String(number))) number += 1;
  return String(number);
}

export function addPrimaryEdit(header: Header, id: string): Edit {
  const primary: Primary = {
    id,
    name: nextPrimaryName(header),
    tube: null,
    port: null,
    inletId: null,
    pieces: [],
  };
  return { kind: 'addPrimary', primary, at: header.primaries.length };
}

/** So many empty primaries as one step: the start of a new header. */
export function addPrimariesEdit(header: Header, newIds: readonly string[]): BatchEdit {
  const first = Number(nextPrimaryName(header));
  return {
    kind: 'batch',
    label: `add ${newIds.length} primaries`,
    edits: newIds.map((id, index) => ({
      kind: 'addPrimary',
      at: header.primaries.length + index,
      primary: { id, name: String(first + index), tube: null, port: null, inletId: null, pieces: [] },
    })),
  };
}

/**
 * A copy right after the original: same pieces under new ids, planned rather than tacked, since nothing of it is made.
 * Port and inlet are places of the original only.
 */
export function duplicatePrimaryEdit(header: Header, primaryId: string, newId: () => string): Edit | null {
  const at = header.primaries.findIndex((primary) => primary.id === primaryId);
  const original = header.primaries[at];
  if (original === undefined) return null;
  const primary: Primary = {
    ...original,
    id: newId(),
    name: nextPrimaryName(header),
    port: null,
    inletId: null,
    pieces: original.pieces.map((piece) => ({ ...piece, id: newId(), state: 'planned', locked: false })),
  };
  return { kind: 'addPrimary', primary, at: at + 1 };
}

export function movePrimaryEdit(header: Header, primaryId: string, by: number): Edit | null {
  const from = header.primaries.findIndex((primary) => primary.id === primaryId);
  const to = from + by;
  if (from === -1 || to < 0 || to >= header.primaries.length) return null;
  return { kind: 'movePrimary', primaryId, to };
}

/** The primary so many places further, stopping at the ends; null in a header without any. */
export function primaryBy(header: Header, primaryId: string | null, by: number): Primary | null {
  const from = header.primaries.findIndex((primary) => primary.id === primaryId);
  const to = Math.min(header.primaries.length - 1, Math.max(0, from + by));
  return header.primaries[to] ?? null;
}
