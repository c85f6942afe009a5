/** Why a search found nothing, and what would have to be let go for it to find something: tried, not guessed. */

import type { MoveOutcome, NearestMiss, NoMoveReason, ToFree } from '../outcome.ts';
import { jointWork } from '../problem/joints.ts';
import type { MoveProblem } from '../problem/move-problem.ts';
import type { Candidate } from '../ranking/candidate.ts';
import { limitsOf, newSearch, type Search } from '../search.ts';
import { searchMoves } from '../search-moves.ts';
import { type Offer, offerMoves } from './offer-moves.ts';

/** The outcome of a search that found nothing to offer: why, unless a search with more let go finds a move that needs nothing let go. */
export function* noMoves(search: Search): Generator<void, MoveOutcome> {
  const { problem, judge } = search;
  const { standing, options } = problem;
  const nearest = nearestOf(search);
  const keptMm = options.clearanceKeptMm ?? null;
  if (judge.tightestBestMm !== null && keptMm !== null) {
    const reason: NoMoveReason = { kind: 'tooTight', bestMm: judge.tightestBestMm, keptMm };
    return { kind: 'none', before: standing, reason, nearest, toFree: null };
  }
  const trial = yield* searchFreed(search);
  if (trial !== null && isFree(trial, search)) {
    return { kind: 'found', before: standing, moves: trial.moves, isExhausted: true };
  }
  const [candidate] = trial?.candidates ?? [];
  const freed = candidate === undefined ? null : toFree(problem, candidate);
  return { kind: 'none', before: standing, reason: reasonOf(search, freed), nearest, toFree: freed };
}

/** The nearest that a search came. */
export function nearestOf(search: Search | null): NearestMiss | null {
  const nearest = search?.seen.nearest ?? null;
  if (nearest === null) return null;
  const { gapMm, tiltDeg, lengthMm } = nearest;
  return { gapMm, tiltDeg, lengthMm };
}

function reasonOf({ problem, seen }: Search, freed: ToFree | null): NoMoveReason {
  const allowed = problem.options.maxJoints;
  if (allowed !== undefined && freed !== null && freed.lockedPieces.length + freed.weldedPieces.length === 0) {
    if (freed.weldedJoints.length === 0) return { kind: 'tooManyJoints', needed: freed.jointsMade, allowed };
  }
  if (problem.holds.every((hold) => hold !== null)) return { kind: 'allHeld' };
  if (problem.pieces.every(({ kind }) => kind === 'straight')) return { kind: 'allInLine' };
  return seen.hasLostToRounding ? { kind: 'rounding' } : { kind: 'outOfReach' };
}

/**
 * The search again with more let go: first with as many tacks as it takes, then with locked and welded pieces too, which
 * count above everything else so that as few as possible are touched. Null when even that gives nothing.
 */
function* searchFreed({ problem, aim }: Search): Generator<void, Offer | null> {
  const limits = { ...limitsOf(problem), most: 1, mostJoints: Number.POSITIVE_INFINITY };
  const trials = [];
  if (problem.options.maxJoints !== undefined) trials.push(limits);
  const isHeld = problem.holds.some((hold) => hold !== null) || problem.jointStates.includes('welded');
  if (isHeld) trials.push({ ...limits, mayTouchHeld: true, prices: null });
  for (const trial of trials) {
    const search = newSearch(problem, aim.ends, trial);
    yield* searchMoves(search);
    const offer = yield* offerMoves(search);
    if (offer.moves.length > 0) return offer;
  }
  return null;
}

/** Samples are drawn anew when more may change, and may come by a move for which nothing has to be let go. */
function isFree({ candidates }: Offer, { limits }: Search): boolean {
  return candidates.every(({ cost }) => cost.held === 0 && cost.joints <= limits.mostJoints);
}

function toFree({ holds, jointStates }: MoveProblem, { changes, demands }: Candidate): ToFree {
  const touched = new Set<number>();
  for (const change of changes) {
    // What is welded and only turned, at a joint that is not, is left as it is.
    const isTurned = change.kind === 'clocking' && holds[change.pieceIndex] === 'welded';
    if ('pieceIndex' in change && !isTurned) touched.add(change.pieceIndex);
  }
  const pieces = [...touched].sort((a, b) => a - b);
  const { opened, made } = jointWork(demands, jointStates);
  return {
    lockedPieces: pieces.filter((index) => holds[index] === 'locked'),
    weldedPieces: pieces.filter((index) => holds[index] === 'welded'),
    weldedJoints: opened.filter((joint) => jointStates[joint] === 'welded'),
    tackedJoints: opened.filter((joint) => jointStates[joint] === 'tacked'),
    jointsMade: made,
  };
}
