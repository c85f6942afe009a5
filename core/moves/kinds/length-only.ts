/** The fall-back where the path is not known: length alone, with a plain word on how far the end may shift. */

import { type Length, MM_PER_INCH, mmOf } from '../../units/length.ts';
import { unitOf } from '../../units/length-style.ts';
import type { Move, MoveChange, MoveCost } from '../move.ts';
import { moveOf } from '../offer/build-move.ts';
import { editFor } from '../offer/edits-of-move.ts';
import { freshIds } from '../offer/fresh-ids.ts';
import { prove } from '../offer/prove.ts';
import type { MoveOutcome } from '../outcome.ts';
import { type JointDemand, jointWork } from '../problem/joints.ts';
import type { MoveProblem } from '../problem/move-problem.ts';
import { type CostFigures, compareCosts, keyParts } from '../ranking/cost.ts';
import { CostTally, type Touch } from '../ranking/cost-tally.ts';
import { priceOf } from '../ranking/shop-prices.ts';
import { isLacking, straightNeed } from '../ranking/stock-needs.ts';
import { limitsOf } from '../search.ts';

interface Attempt {
  readonly change: MoveChange;
  readonly touch: Touch;
  /** What the piece gains, mm. */
  readonly byMm: number;
}

/**
 * One straight made longer or shorter, or let in between two bends, so that the length comes right. Nothing is known of where
 * the end goes but that it shifts by no more than the length that was added or taken off.
 */
export function suggestLengthOnly(problem: MoveProblem): MoveOutcome {
  const { standing } = problem;
  const limits = limitsOf(problem);
  const ranked = attempts(problem)
    .flatMap((attempt) => {
      const one = moveFor(problem, attempt);
      return one === null || one.move.cost.jointsMade > limits.mostJoints ? [] : [one];
    })
    .sort((a, b) => compareCosts(a.cost, b.cost));
  const moves = limits.kinds.includes('lengthOnly') ? ranked.slice(0, limits.most).map(({ move }) => move) : [];
  if (moves.length > 0) return { kind: 'found', before: standing, moves, isExhausted: true };
  const isAllHeld = problem.holds.every((hold) => hold !== null);
  const reason = isAllHeld ? ({ kind: 'allHeld' } as const) : ({ kind: 'outOfReach' } as const);
  return { kind: 'none', before: standing, reason, nearest: null, toFree: null };
}

function attempts(problem: MoveProblem): readonly Attempt[] {
  const { window, pieces, holds, shortestMm, shrinkageMm, jointStates } = problem;
  const gainMm = window.aimMm - window.presentMm;
  const found: Attempt[] = [];
  for (let index = 0; index <= pieces.length; index += 1) {
    const piece = pieces[index];
    if (piece?.kind === 'straight') {
      if (holds[index] !== null) continue;
      const to = sawn(problem, mmOf(piece.length) + gainMm);
      const byMm = mmOf(to) - mmOf(piece.length);
      if (mmOf(to) < Math.max(shortestMm, 0.5)) continue;
      const isPlanned = piece.state === 'planned';
      const demand: JointDemand =
        byMm > 0 ? { kind: 'piece', pieceIndex: index, more: 0 } : { kind: 'oneOf', first: index, last: index + 1 };
      const touch = { demand, isHeld: false, cuts: isPlanned ? 0 : 1, adjusted: isPlanned ? 1 : 0 };
      found.push({ change: { kind: 'length', pieceIndex: index, from: piece.length, to }, touch, byMm });
      continue;
    }
    const isBare = pieces[index - 1]?.kind !== 'straight' && jointStates[index] !== 'welded';
    const length = sawn(problem, gainMm + shrinkageMm);
    if (!isBare || mmOf(length) < Math.max(shortestMm, 0.5)) continue;
    const touch = { demand: { kind: 'joint', joint: index, more: 1 } as const, isHeld: false, cuts: 1, adjusted: 0 };
    found.push({ change: { kind: 'letIn', joint: index, length }, touch, byMm: mmOf(length) });
  }
  return found;
}

/** To what the header shows, but no coarser than half a millimetre or 1/32 in. */
function sawn({ header }: MoveProblem, mm: number): Length {
  const unit = unitOf(header.settings.display);
  const per = unit === 'in' ? 64 : 4;
  return { value: Math.max(0, Math.round((unit === 'in' ? mm / MM_PER_INCH : mm) * per) / per), unit };
}

function moveFor(problem: MoveProblem, attempt: Attempt): { readonly move: Move; readonly cost: CostFigures } | null {
  const { change, touch, byMm } = attempt;
  const edit = editFor(problem, [change], freshIds(problem));
  const proof = prove(problem, null, edit);
  if (proof === null) return null;
  const parts = keyParts(new CostTally(problem.jointStates).keyOf([touch]));
  const cost = costOf(problem, attempt, parts.cuts);
  const move = moveOf(problem, { kind: 'lengthOnly', changes: [change], edit, cost }, proof);
  const offMm = Math.abs(proof.lengthMm - problem.window.aimMm);
  return {
    move: { ...move, endShiftAtMostMm: Math.abs(byMm) },
    cost: {
      ...parts,
      price: cost.price ?? 0,
      tubeMm: cost.tubeAddedMm + problem.closeness.offTarget * offMm,
      lacking: cost.stockLacking,
      offMm,
      tightMm: 0,
    },
  };
}

function costOf(
  { stock, tube, jointStates, options }: MoveProblem,
  { change, touch, byMm }: Attempt,
  newCuts: number,
): MoveCost {
  const newMm = change.kind === 'letIn' ? mmOf(change.length) : change.kind === 'length' ? mmOf(change.to) : 0;
  const stockNeeded = stock === null || byMm <= 0 ? [] : [straightNeed(stock, tube, newMm)];
  const { opened, made } = jointWork([touch.demand], jointStates);
  const prices = options.prices ?? null;
  const lacking = stockNeeded.filter(isLacking).length;
  const tubeAddedMm = Math.max(0, byMm);
  return {
    price: prices === null ? null : priceOf(prices, { joints: made, cuts: newCuts, bends: 0, lacking, tubeAddedMm }),
    bendsAdded: 0,
    jointsMade: made,
    jointsBroken: opened,
    newCuts,
    tubeAddedMm,
    stockNeeded,
    stockLacking: lacking,
  };
}
