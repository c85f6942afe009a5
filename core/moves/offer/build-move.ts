/** Makes a move out of a candidate: its edits, and what they do to the primary. */

import type { Move, MoveCost } from '../move.ts';
import { jointWork } from '../problem/joints.ts';
import type { MoveProblem } from '../problem/move-problem.ts';
import type { Candidate } from '../ranking/candidate.ts';
import { priceOf } from '../ranking/shop-prices.ts';
import { editFor } from './edits-of-move.ts';
import { type Proof, prove } from './prove.ts';

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
  const { opened, made } = jointWork(candidate.demands, problem.jointStates);
  // The search for what could be let go counts without prices, so they are worked out here.
  const prices = problem.options.prices ?? null;
  const cost: MoveCost = {
    bendsAdded: candidate.cost.bends,
    jointsMade: made,
    jointsBroken: opened,
    newCuts: candidate.cost.cuts,
    tubeAddedMm: candidate.tubeAddedMm,
    stockNeeded: candidate.needs,
    stockLacking: candidate.cost.lacking,
    price: prices === null ? null : priceOf(prices, { ...candidate.cost, tubeAddedMm: candidate.tubeAddedMm }),
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
