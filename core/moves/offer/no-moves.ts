/** Why a search found nothing, and what would have to be let go for it to find something: tried, not guessed. */

import { freedJoints } from '../problem/joints.ts';
import type { MoveOutcome, NearestMiss, NoMoveReason, ToFree } from '../move.ts';
import type { Candidate, MovePool } from '../ranking/move-pool.ts';
import type { FixedEnds, MoveProblem } from '../problem/move-problem.ts';
import { type Offer, offerMoves } from './offer-moves.ts';
import { poolLimits, searchMoves } from '../search-moves.ts';

interface Failed {
  readonly problem: MoveProblem;
  readonly ends: FixedEnds;
  readonly pool: MovePool;
}

/** The outcome of a search that found nothing to offer. */
export function noMoves({ problem, ends, pool }: Failed, offer: Offer): MoveOutcome {
  const { standing } = problem;
  const nearest = nearestMiss(pool);
  const keptMm = problem.options.clearanceKeptMm ?? null;
  if (offer.tightestBestMm !== null && keptMm !== null) {
    const reason: NoMoveReason = { kind: 'tooTight', bestMm: offer.tightestBestMm, keptMm };
    return { kind: 'none', before: standing, reason, nearest, toFree: null };
  }
  const freed = whatToFree(problem, ends);
  if (freed === 'stopped') return { kind: 'stopped', before: standing, moves: [] };
  const reason = reasonOf(problem, pool, freed);
  return { kind: 'none', before: standing, reason, nearest, toFree: freed };
}

function nearestMiss({ nearest }: MovePool): NearestMiss | null {
  if (nearest === null) return null;
  const { gapMm, tiltDeg, lengthMm } = nearest;
  return { gapMm, tiltDeg, lengthMm };
}

function reasonOf(problem: MoveProblem, pool: MovePool, freed: ToFree | null): NoMoveReason {
  const allowed = problem.options.maxJointsBroken;
  if (allowed !== undefined && freed !== null && freed.lockedPieces.length + freed.weldedPieces.length === 0) {
    if (freed.weldedJoints.length === 0) return { kind: 'tooManyJoints', needed: freed.tackedJoints.length, allowed };
  }
  if (problem.holds.every((hold) => hold !== null)) return { kind: 'allHeld' };
  if (problem.pieces.every(({ kind }) => kind === 'straight')) return { kind: 'allInLine' };
  return pool.hasLostToRounding ? { kind: 'rounding' } : { kind: 'outOfReach' };
}

/**
 * The least to let go, by searching again: first with as many tacks as it takes, then with locked and welded pieces too, which
 * count above everything else so that as few as possible are touched. Null when even that gives nothing.
 */
function whatToFree(problem: MoveProblem, ends: FixedEnds): ToFree | null | 'stopped' {
  const limits = { ...poolLimits(problem), most: 1, mostJoints: Number.POSITIVE_INFINITY };
  const trials = [];
  if (problem.options.maxJointsBroken !== undefined) trials.push(limits);
  const isHeld = problem.holds.some((hold) => hold !== null) || problem.jointStates.includes('welded');
  if (isHeld) trials.push({ ...limits, mayTouchHeld: true });
  for (const trial of trials) {
    const pool = searchMoves(problem, ends, trial);
    if (pool.isStopped) return 'stopped';
    const [candidate] = offerMoves(problem, pool).candidates;
    if (candidate !== undefined) return toFree(problem, candidate);
  }
  return null;
}

function toFree({ holds, jointStates }: MoveProblem, { changes, demands }: Candidate): ToFree {
  const touched = new Set<number>();
  for (const change of changes) if ('pieceIndex' in change) touched.add(change.pieceIndex);
  const pieces = [...touched].sort((a, b) => a - b);
  const joints = freedJoints(demands, jointStates);
  return {
    lockedPieces: pieces.filter((index) => holds[index] === 'locked'),
    weldedPieces: pieces.filter((index) => holds[index] === 'welded'),
    weldedJoints: joints.filter((joint) => jointStates[joint] === 'welded'),
    tackedJoints: joints.filter((joint) => jointStates[joint] === 'tacked'),
  };
}
