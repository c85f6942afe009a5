/** What a comparison says, in words, and the edits that follow from it. */

import {
  alignPieces,
  assertNever,
  type Closure,
  type Comparison,
  type Edit,
  formatAngle,
  formatDeviation,
  type JointTurn,
  type LengthStyle,
  mirrorPiece,
  type Piece,
  type PieceDifference,
  type Primary,
  radiansOf,
  wrapDeg,
} from '../../../core/index.ts';
import { closureWords } from '../../ui/words/closure-words.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';

const MINUS = '\u2212';

/** Degrees with their sign, to the hundredth. */
export function signedDeg(angleDeg: number): string {
  const rounded = Math.round(angleDeg * 100) / 100;
  return `${rounded < 0 ? MINUS : '+'}${formatAngle(Math.abs(rounded))}`;
}

/** "Piece 4: clocking +5°". */
export function differenceWords(difference: PieceDifference, style: LengthStyle): string {
  const { kind, by, indexInOther, indexInReference } = difference;
  const piece = `Piece ${(indexInOther ?? indexInReference ?? 0) + 1}`;
  switch (kind) {
    case 'kind':
      return `${piece}: another kind of piece`;
    case 'missing':
      return `${piece} of the reference is missing`;
    case 'extra':
      return `${piece} is extra`;
    case 'length':
      return `${piece}: length ${by === null ? 'differs' : formatDeviation(by, style)}`;
    case 'clr':
      return `${piece}: CLR ${by === null ? 'differs' : formatDeviation(by, style)}`;
    case 'angle':
      return `${piece}: angle ${by === null ? 'differs' : signedDeg(by)}`;
    case 'clocking':
      return `${piece}: clocking ${by === null ? 'not recorded on one of them' : signedDeg(by)}`;
    case 'pies':
      return `${piece}: ${by === null ? 'other' : Math.abs(by)} pies ${by !== null && by < 0 ? 'fewer' : 'more'}`;
    default:
      return assertNever(kind);
  }
}

/** The inlet of a comparison is where the reference would end. */
export function againstWords(words: string, referenceName: string): string {
  const place = `where ${primaryTitle(referenceName)} would end`;
  return words.replaceAll('in the inlet', place).replaceAll('the inlet', place);
}

/** Below this much of the miss is left, one joint accounts for it. */
const EXPLAINED_PART = 0.1;

/** Says how well one joint accounts for a miss, what to do about it, and where the primary ends then. */
export function turnWords(turn: JointTurn, before: Closure, style: LengthStyle): string {
  const isExplained = missPart(turn, before) < EXPLAINED_PART;
  const lead = isExplained ? 'One joint explains it.' : 'No one joint explains it; this one helps most.';
  const act = `Re-clock piece ${turn.pieceIndex + 1} by ${signedDeg(turn.turnDeg)}`;
  return `${lead} ${act}: the primary then ${closureWords(turn.closureAfter, style)}.`;
}

/** How much of the gap and tilt a turn leaves, as a part of what was there. */
function missPart(turn: JointTurn, before: Closure): number {
  const tiltMm = 200 * Math.sin(radiansOf(before.tiltDeg) / 2);
  return turn.leftMm / Math.max(1e-9, Math.hypot(before.gapMm, tiltMm));
}

/** The turn added to the bend's clocking, to the hundredth of a degree and within half a turn. */
export function turnEdit(primary: Primary, turn: JointTurn): Edit | null {
  const piece = primary.pieces.find(({ id }) => id === turn.pieceId);
  if (piece === undefined || piece.kind === 'straight') return null;
  const clockingDeg = Math.round(wrapDeg((piece.clockingDeg ?? 0) + turn.turnDeg) * 100) / 100 + 0;
  return { kind: 'replacePiece', primaryId: primary.id, piece: { ...piece, clockingDeg } };
}

export interface Compared {
  readonly reference: Primary;
  readonly other: Primary;
  readonly comparison: Comparison;
}

/** Makes the one difference as it is on the reference, built to the hand of the other; null when there is nothing to make. */
export function mendEdit(
  { reference, other, comparison }: Compared,
  difference: PieceDifference,
  id: string,
): Edit | null {
  const { kind, indexInOther, indexInReference } = difference;
  const own = indexInOther === null ? undefined : other.pieces[indexInOther];
  const wanted = indexInReference === null ? undefined : reference.pieces[indexInReference];
  const model = wanted === undefined ? undefined : comparison.isMirrored ? mirrorPiece(wanted) : wanted;
  if (model === undefined) {
    return own === undefined ? null : { kind: 'removePiece', primaryId: other.id, pieceId: own.id };
  }
  if (own === undefined) {
    const at = placeInOther(reference, other, indexInReference ?? 0);
    const piece: Piece = { ...model, id, state: 'planned', locked: false };
    return { kind: 'addPiece', primaryId: other.id, piece, at };
  }
  const piece = withMeasure(own, model, kind);
  return { kind: 'replacePiece', primaryId: other.id, piece };
}

/** After the partner of the piece before it. */
function placeInOther(reference: Primary, other: Primary, index: number): number {
  const before = alignPieces(reference.pieces, other.pieces).findLast(
    ([one, two]) => one !== null && two !== null && one < index,
  );
  return before === undefined ? 0 : (before[1] ?? 0) + 1;
}

function withMeasure(own: Piece, model: Piece, kind: PieceDifference['kind']): Piece {
  const { id, state, locked, note } = own;
  if (own.kind === 'straight' || model.kind === 'straight' || own.kind !== model.kind) {
    return { ...model, id, state, locked, note };
  }
  if (kind === 'clr') return { ...own, clr: model.clr };
  if (kind === 'angle') return { ...own, angleDeg: model.angleDeg };
  if (kind === 'clocking') return { ...own, clockingDeg: model.clockingDeg };
  return { ...model, id, state, locked, note };
}
