/** Two primaries piece by piece: what differs, which joint explains it best, and what mending it does to the end. */

import type { Piece, Primary } from '../../header/header.ts';
import { failure, type Result, success } from '../../result.ts';
import { mmOf } from '../../units/length.ts';
import { type Closure, closureMissMm, closureOf } from '../ends/closure.ts';
import { type JointTurn, singleJointTurns } from '../ends/single-joint.ts';
import { DEFAULT_PORT, type Frame, frameOfPose } from '../frame.ts';
import type { PathProblem } from '../path-problem.ts';
import { traceFrom } from '../trace-primary.ts';
import { wrapDeg } from '../vector.ts';
import { alignPieces, type PiecePairing } from './align-pieces.ts';
import { type DifferenceKind, type DifferencePlace, mendedPieces, mendingOf, modelOf } from './mending.ts';

/** One way in which one piece differs. */
export interface PieceDifference extends DifferencePlace {
  /** Other minus reference, in millimetres or degrees; null where there is nothing to subtract. */
  readonly by: number | null;
  /** Closure of the other primary at the reference's end once this piece is made as in the reference; null: not known. */
  readonly closureAfterMending: Closure | null;
}

export interface Comparison {
  /** The other primary is built to the other hand: its clockings were compared with their signs changed. */
  readonly isMirrored: boolean;
  readonly differences: readonly PieceDifference[];
  /** How far the other ends from where the reference's pieces would, from the same port; null when a path is not known. */
  readonly closure: Closure | null;
  /** The joint whose turning brings the ends together best; null when they agree, or a path is not known. */
  readonly bestJoint: JointTurn | null;
  /** The one difference that, mended, brings the ends together best; null likewise, or when none brings them nearer. */
  readonly bestMending: PieceDifference | null;
}

export interface CompareOptions {
  /** Whether the other is built to the other hand; left out, whichever hand makes the clockings differ less. */
  readonly isMirrored?: boolean;
}

/** Differences below these are rounding. */
const SAME_MM = 1e-6;
const SAME_DEG = 1e-6;

/**
 * Compares `other` with `reference`. Paths are both traced from the other's port (or `DEFAULT_PORT`), the reference built to
 * the other's hand, so that everything said of ends holds where the other primary really is. Pieces are paired in
 * order, leaving out as few as can be. Cost: pieces squared. Problem: a bad port pose on `other`.
 */
export function comparePrimaries(
  reference: Primary,
  other: Primary,
  options: CompareOptions = {},
): Result<Comparison, PathProblem> {
  const port = other.port === null ? null : frameOfPose(other.port, ['primaries', other.id, 'port']);
  if (port !== null && !port.ok) return failure(...port.problems);
  const start = port === null ? DEFAULT_PORT : port.value;
  const isMirrored = options.isMirrored ?? handMissDeg(reference, other) < -SAME_DEG;
  const model = modelOf(reference, isMirrored);
  const wanted = traceFrom(model, start);
  const actual = traceFrom(other, start);
  const isKnown = wanted.problem === null && actual.problem === null;
  const end = isKnown ? wanted.path.end : null;
  const pairings = alignPieces(model.pieces, other.pieces);
  const differences = pairings
    .flatMap((pairing) => differencesOf(model, other, pairing))
    .map((difference) => ({
      ...difference,
      closureAfterMending: end && mendedClosure({ model, other, start, end }, difference),
    }));
  if (end === null) return success({ isMirrored, differences, closure: null, bestJoint: null, bestMending: null });
  const closure = closureOf(actual.path.end, end);
  const hasMiss = closureMissMm(closure) > SAME_MM;
  return success({
    isMirrored,
    differences,
    closure,
    bestJoint: hasMiss ? (singleJointTurns(other, start, end)[0] ?? null) : null,
    bestMending: hasMiss ? bestMending(differences, closure) : null,
  });
}

/** By how many degrees more the clockings differ, summed, if `other` is of the other hand; negative when it likely is. */
export function handMissDeg(reference: Primary, other: Primary): number {
  return clockingMiss(modelOf(reference, true), other) - clockingMiss(reference, other);
}

/** Sum of the differences of clocking over pieces in the same place, in degrees. */
function clockingMiss(a: Primary, b: Primary): number {
  return alignPieces(a.pieces, b.pieces).reduce((sum, [indexA, indexB]) => {
    const [one, other] = [clockingAt(a, indexA), clockingAt(b, indexB)];
    return one === null || other === null ? sum : sum + Math.abs(wrapDeg(other - one));
  }, 0);
}

function clockingAt(primary: Primary, index: number | null): number | null {
  const piece = index === null ? undefined : primary.pieces[index];
  return piece === undefined || piece.kind === 'straight' ? null : piece.clockingDeg;
}

type PlainDifference = Omit<PieceDifference, 'closureAfterMending'>;

function differencesOf(model: Primary, other: Primary, pairing: PiecePairing): readonly PlainDifference[] {
  const [indexInReference, indexInOther] = pairing;
  const places = { indexInReference, indexInOther };
  const one = indexInReference === null ? undefined : model.pieces[indexInReference];
  const two = indexInOther === null ? undefined : other.pieces[indexInOther];
  if (one === undefined) return [{ kind: 'extra', ...places, by: null }];
  if (two === undefined) return [{ kind: 'missing', ...places, by: null }];
  if (one.kind !== two.kind) return [{ kind: 'kind', ...places, by: null }];
  return measuresThatDiffer(one, two).map(([kind, by]) => ({ kind, ...places, by }));
}

function measuresThatDiffer(one: Piece, two: Piece): readonly (readonly [DifferenceKind, number | null])[] {
  if (one.kind === 'straight' || two.kind === 'straight') {
    if (one.kind !== 'straight' || two.kind !== 'straight') return [];
    const byMm = mmOf(two.length) - mmOf(one.length);
    return Math.abs(byMm) > SAME_MM ? [['length', byMm]] : [];
  }
  const measures: (readonly [DifferenceKind, number | null])[] = [];
  const clrMm = mmOf(two.clr) - mmOf(one.clr);
  if (Math.abs(clrMm) > SAME_MM) measures.push(['clr', clrMm]);
  const angleDeg = two.angleDeg - one.angleDeg;
  if (Math.abs(angleDeg) > SAME_DEG) measures.push(['angle', angleDeg]);
  if (one.clockingDeg === null || two.clockingDeg === null) {
    if (one.clockingDeg !== two.clockingDeg) measures.push(['clocking', null]);
  } else {
    const turnDeg = wrapDeg(two.clockingDeg - one.clockingDeg);
    if (Math.abs(turnDeg) > SAME_DEG) measures.push(['clocking', turnDeg]);
  }
  if (one.kind === 'pieCut' && two.kind === 'pieCut' && one.pies !== two.pies)
    measures.push(['pies', two.pies - one.pies]);
  return measures;
}

interface MendingContext {
  readonly model: Primary;
  readonly other: Primary;
  readonly start: Frame;
  /** Where the reference ends. */
  readonly end: Frame;
}

/** Closure of the other primary with this one difference taken away. */
function mendedClosure(context: MendingContext, difference: PlainDifference): Closure | null {
  const mending = mendingOf(context.model, context.other, difference);
  if (mending === null) return null;
  const pieces = mendedPieces(context.other.pieces, mending);
  const { path, problem } = traceFrom({ ...context.other, pieces }, context.start);
  return problem === null ? closureOf(path.end, context.end) : null;
}

function bestMending(differences: readonly PieceDifference[], before: Closure): PieceDifference | null {
  let best: PieceDifference | null = null;
  let bestMiss = closureMissMm(before);
  for (const difference of differences) {
    if (difference.closureAfterMending === null) continue;
    const miss = closureMissMm(difference.closureAfterMending);
    if (miss >= bestMiss) continue;
    best = difference;
    bestMiss = miss;
  }
  return best;
}
