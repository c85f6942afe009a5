/** Makes a move out of chosen values: the edits, what it does to the primary, and the proof that it does it. */

import { applyEdit } from '../../edits/apply-edit.ts';
import type { BatchEdit, SingleEdit } from '../../edits/edit.ts';
import type { Header, Piece, PieceState, Primary } from '../../header/header.ts';
import { matchHeader } from '../../length/match-header.ts';
import { type Closure, closureOf, isClosed } from '../../path/ends/closure.ts';
import { tracePrimary } from '../../path/trace-primary.ts';
import { type Length, mmOf } from '../../units/length.ts';
import { freedJoints } from '../problem/joints.ts';
import type { Move, MoveChange, MoveCost } from '../move.ts';
import type { Candidate } from '../ranking/move-pool.ts';
import type { FixedEnds, MoveProblem } from '../problem/move-problem.ts';

/** What must be cut anew is planned again; what is only turned is cut, but no longer tacked. */
function loosened(state: PieceState, isCutAnew: boolean): PieceState {
  if (state === 'planned' || isCutAnew) return 'planned';
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
    const piece = pieces[change.pieceIndex];
    if (piece === undefined) continue;
    if (change.kind === 'takeOut') edits.push({ kind: 'removePiece', primaryId, pieceId: piece.id });
    else replaced.set(piece.id, changedPiece(replaced.get(piece.id) ?? piece, change));
  }
  for (const piece of replaced.values()) edits.push({ kind: 'replacePiece', primaryId, piece });
  return { kind: 'batch', label: `move on primary ${shortName(primary.name)}`, edits };
}

function shortName(name: string): string {
  const letters = [...name];
  return letters.length <= 40 ? name : `${letters.slice(0, 40).join('')}\u2026`;
}

function straightPiece(id: string, length: Length): Piece {
  return { kind: 'straight', id, state: 'planned', locked: false, note: '', length };
}

type ChangeInPlace = Extract<MoveChange, { readonly kind: 'length' | 'clocking' | 'angle' | 'swap' }>;

function changedPiece(piece: Piece, change: ChangeInPlace): Piece {
  const state = loosened(piece.state, change.kind !== 'clocking');
  if (piece.kind === 'straight') return change.kind === 'length' ? { ...piece, state, length: change.to } : piece;
  switch (change.kind) {
    case 'clocking':
      return { ...piece, state, clockingDeg: change.toDeg };
    case 'angle':
      return { ...piece, state, angleDeg: change.toDeg };
    case 'swap':
      return { ...piece, state, clr: change.toClr, angleDeg: change.toDeg };
    default:
      return piece;
  }
}

type Insert = Extract<MoveChange, { readonly kind: 'bendPair' | 'kick' }>;

function insertEdits({ id: primaryId, pieces }: Primary, change: Insert, newId: () => string): readonly SingleEdit[] {
  const bend = (angleDeg: number, clockingDeg: number): Piece => ({
    kind: 'bend',
    id: newId(),
    state: 'planned',
    locked: false,
    note: '',
    clr: change.clr,
    angleDeg,
    clockingDeg,
  });
  const edits: SingleEdit[] = [];
  const at = change.kind === 'kick' ? change.pieceIndex : change.joint;
  const next = pieces.slice(at).find((piece) => piece.kind !== 'straight');
  if (next !== undefined && change.nextClockingDeg !== null) {
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

export interface Proof {
  readonly header: Header;
  readonly primary: Primary;
  readonly lengthMm: number;
  readonly deviationMm: number;
  readonly closure: Closure | null;
}

/** Applies the edit as it will be applied and looks at what comes out; null unless closed, in the band and workable. */
export function prove(problem: MoveProblem, ends: FixedEnds | null, edit: BatchEdit): Proof | null {
  const applied = applyEdit(problem.header, edit);
  if (!applied.ok) return null;
  const { header } = applied.value;
  const primary = header.primaries.find(({ id }) => id === problem.primary.id);
  if (primary === undefined || !hasWorkableStraights(problem, primary)) return null;
  const own = matchHeader(header).primaries.find(({ primaryId }) => primaryId === primary.id);
  if (own?.verdict !== 'inBand' || own.deviationMm === null) return null;
  const measured = { header, primary, lengthMm: own.lengthMm, deviationMm: own.deviationMm };
  if (ends === null) return { ...measured, closure: null };
  const path = tracePrimary(primary, primary.port);
  if (!path.ok) return null;
  const closure = closureOf(path.value.end, ends.wanted);
  return isClosed(closure, ends.limits) ? { ...measured, closure } : null;
}

/** A straight that was too short before and is left as it was is not this move's doing. */
function hasWorkableStraights({ pieces, shortestMm }: MoveProblem, primary: Primary): boolean {
  return primary.pieces.every((piece) => {
    if (piece.kind !== 'straight') return true;
    const lengthMm = mmOf(piece.length);
    if (lengthMm === 0 || lengthMm >= shortestMm - 1e-9) return true;
    const before = pieces.find(({ id }) => id === piece.id);
    return before?.kind === 'straight' && mmOf(before.length) === lengthMm;
  });
}

/** The finished move, without its clearance; null when the proof fails. */
export function buildMove(
  problem: MoveProblem,
  candidate: Candidate,
  newId: () => string,
): { readonly move: Move; readonly proof: Proof } | null {
  const { changes } = candidate;
  const edit = editFor(problem, changes, newId);
  const proof = prove(problem, problem.ends, edit);
  if (proof === null) return null;
  const cost: MoveCost = {
    jointsBroken: freedJoints(candidate.demands, problem.jointStates).filter(
      (joint) => problem.jointStates[joint] !== 'open',
    ),
    newCuts: candidate.cost.cuts,
    tubeAddedMm: candidate.tubeAddedMm,
    stockNeeded: candidate.needs,
    stockLacking: candidate.cost.lacking,
  };
  return { move: moveOf(problem, { kind: candidate.kind, changes, edit, cost }, proof), proof };
}

export function moveOf(
  problem: MoveProblem,
  parts: Pick<Move, 'kind' | 'changes' | 'edit' | 'cost'>,
  proof: Proof,
): Move {
  return {
    ...parts,
    primaryId: problem.primary.id,
    lengthMm: proof.lengthMm,
    deviationMm: proof.deviationMm,
    closureBefore: problem.standing.closure,
    closureAfter: proof.closure,
    clearanceBeforeMm: null,
    clearanceAfterMm: null,
    endShiftAtMostMm: null,
  };
}
