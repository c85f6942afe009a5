/** A move's changes as edits of the header. */

import { type BatchEdit, batchOf, type SingleEdit } from '../../edits/edit.ts';
import type { Bend, PieCutBend, Piece, PieceState, Primary } from '../../header/header.ts';
import { labelName } from '../../header/names.ts';
import { type Length, mmOf } from '../../units/length.ts';
import type { MoveChange } from '../move.ts';
import type { MoveProblem } from '../problem/move-problem.ts';

/** What must be cut anew is planned again; what is only turned is cut, but no longer tacked, unless it turns with what it is welded to. */
function loosened(state: PieceState, isCutAnew: boolean): PieceState {
  if (state === 'planned' || isCutAnew) return 'planned';
  if (state === 'welded') return 'welded';
  return 'cut';
}

/** Edits for the changes, from the far end backwards so that places in the list stay right. */
export function editFor(
  { primary, pieces }: MoveProblem,
  changes: readonly MoveChange[],
  newId: () => string,
): BatchEdit {
  const edits: SingleEdit[] = [];
  const replaced = new Map<string, Piece>();
  const primaryId = primary.id;
  for (const change of [...changes].reverse()) {
    if (change.kind === 'letIn') {
      const piece = straightPiece(newId(), change.length);
      edits.push({ kind: 'addPiece', primaryId, piece, at: change.joint });
      continue;
    }
    if (change.kind === 'bendPair' || change.kind === 'kick') {
      edits.push(...insertEdits(primary, change, newId));
      continue;
    }
    if (change.kind === 'bendIn' || change.kind === 'bendOut') {
      const from = change.kind === 'bendIn' ? change.joint : change.pieceIndex + 1;
      const next = bendFrom(pieces, from);
      if (next !== null && change.nextClockingDeg !== null) {
        replaced.set(next.id, { ...(replaced.get(next.id) ?? next), clockingDeg: change.nextClockingDeg } as Piece);
      }
    }
    if (change.kind === 'bendIn') {
      const piece = bendPiece(newId(), change, change);
      edits.push({ kind: 'addPiece', primaryId, piece, at: change.joint });
      continue;
    }
    const piece = pieces[change.pieceIndex];
    if (piece === undefined) continue;
    if (change.kind === 'takeOut' || change.kind === 'bendOut')
      edits.push({ kind: 'removePiece', primaryId, pieceId: piece.id });
    else replaced.set(piece.id, changedPiece(replaced.get(piece.id) ?? piece, change));
  }
  for (const piece of replaced.values()) edits.push({ kind: 'replacePiece', primaryId, piece });
  return batchOf(`move on primary ${labelName(primary.name)}`, edits);
}

function straightPiece(id: string, length: Length): Piece {
  return { kind: 'straight', id, state: 'planned', locked: false, note: '', length };
}

function bendPiece(
  id: string,
  { clr }: { readonly clr: Length },
  { angleDeg, clockingDeg }: { readonly angleDeg: number; readonly clockingDeg: number },
): Piece {
  return { kind: 'bend', id, state: 'planned', locked: false, note: '', clr, angleDeg, clockingDeg };
}

/** The first bend from piece `from` on; null when there is none. */
function bendFrom(pieces: readonly Piece[], from: number): Bend | PieCutBend | null {
  return pieces.slice(from).find((piece) => piece.kind !== 'straight') ?? null;
}

type ChangeInPlace = Extract<MoveChange, { readonly kind: 'length' | 'clocking' | 'angle' | 'swap' | 'pies' }>;

function changedPiece(piece: Piece, change: ChangeInPlace): Piece {
  const state = loosened(piece.state, change.kind !== 'clocking');
  if (piece.kind === 'straight') return change.kind === 'length' ? { ...piece, state, length: change.to } : piece;
  switch (change.kind) {
    case 'clocking':
      return { ...piece, state, clockingDeg: change.toDeg };
    case 'angle':
      return { ...piece, state, angleDeg: change.toDeg };
    case 'pies':
      return piece.kind === 'pieCut' ? { ...piece, state, angleDeg: change.toDeg, pies: change.toPies } : piece;
    case 'swap':
      return { ...piece, state, clr: change.toClr, angleDeg: change.toDeg };
    default:
      return piece;
  }
}

type Insert = Extract<MoveChange, { readonly kind: 'bendPair' | 'kick' }>;

function insertEdits({ id: primaryId, pieces }: Primary, change: Insert, newId: () => string): readonly SingleEdit[] {
  const bend = (angleDeg: number, clockingDeg: number) => bendPiece(newId(), change, { angleDeg, clockingDeg });
  const edits: SingleEdit[] = [];
  const at = change.kind === 'kick' ? change.pieceIndex : change.joint;
  const next = bendFrom(pieces, at);
  if (next !== null && change.nextClockingDeg !== null) {
    edits.push({ kind: 'replacePiece', primaryId, piece: { ...next, clockingDeg: change.nextClockingDeg } });
  }
  const added: Piece[] =
    change.kind === 'kick'
      ? [bend(change.angleDeg, change.clockingDeg), bend(2 * change.angleDeg, 180), bend(change.angleDeg, 180)]
      : [bend(change.angleDeg, change.clockingDeg), bend(change.angleDeg, 180)];
  if (change.kind === 'kick') edits.push(...straightsAround(primaryId, pieces, change, { added, newId }));
  added.forEach((piece, index) => {
    edits.push({ kind: 'addPiece', primaryId, piece, at: at + index });
  });
  return edits;
}

/** What is left of a straight on both sides of a kick: the piece itself before it, a new one after. */
function straightsAround(
  primaryId: string,
  pieces: readonly Piece[],
  change: Extract<MoveChange, { readonly kind: 'kick' }>,
  { added, newId }: { readonly added: Piece[]; readonly newId: () => string },
): readonly SingleEdit[] {
  const piece = pieces[change.pieceIndex];
  if (piece === undefined || piece.kind !== 'straight') return [];
  if (mmOf(change.before) > 0) {
    added.unshift({ ...piece, id: newId(), state: 'planned', length: change.before });
  }
  if (mmOf(change.after) > 0) {
    return [{ kind: 'replacePiece', primaryId, piece: { ...piece, state: 'planned', length: change.after } }];
  }
  return [{ kind: 'removePiece', primaryId, pieceId: piece.id }];
}
