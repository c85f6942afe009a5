/** A move that was found and not proven yet, and the figures that it is ranked by. */

import { mmOf } from '../../units/length.ts';
import type { MoveChange, StockNeed } from '../move.ts';
import type { JointDemand } from '../problem/joints.ts';
import type { MoveProblem } from '../problem/move-problem.ts';
import type { Setting } from '../problem/setting.ts';
import { lengthAtMm, type Variable } from '../problem/variable.ts';
import type { MoveKind } from '../question.ts';
import type { CostFigures } from './cost.ts';
import { bendNeed, straightNeed } from './stock-needs.ts';

export interface Candidate {
  readonly kind: MoveKind;
  /** In order along the tube. */
  readonly changes: readonly MoveChange[];
  readonly demands: readonly JointDemand[];
  /** Slots changed, so that a move with more changes on top can be told. */
  readonly slots: readonly number[];
  readonly cost: CostFigures;
  readonly key: number;
  readonly tubeAddedMm: number;
  readonly needs: readonly StockNeed[];
  /** What the move is about; see `ideaOf`. */
  readonly idea: string;
}

/**
 * What a move is about, whatever its figures: which pieces are cut, replaced, taken out or let in, and which bends are re-clocked where
 * that is all; at which joint or straight bends come in. Re-clockings that come along, and which CLR it is, are details.
 */
export function ideaOf({ kind, changes, slots }: Pick<Candidate, 'kind' | 'changes' | 'slots'>): string {
  for (const change of changes) {
    if (change.kind === 'kick') return `kick ${change.pieceIndex}`;
    if (change.kind === 'bendPair' || change.kind === 'bendIn') return `${change.kind} ${change.joint}`;
  }
  const cut = changes.filter((change) => change.kind !== 'clocking');
  if (cut.length === 0) return `clockings ${slots.join()}`;
  return `${kind} ${cut.map((change) => `${change.kind} ${'joint' in change ? change.joint : change.pieceIndex}`).join()}`;
}

export function kindOf(settings: readonly Setting[]): MoveKind {
  const has = (kind: Variable['kind']) => settings.some(({ variable }) => variable.kind === kind);
  if (has('newAngle')) return 'bendIn';
  if (has('bendOut')) return 'bendOut';
  if (has('swap')) return 'swaps';
  if (has('angle') || has('pies')) return 'trims';
  return has('clocking') ? 'clockings' : 'straights';
}

/** See `cost.ts`. */
export function tubeAddedMm(problem: MoveProblem, settings: readonly Pick<Setting, 'variable' | 'value'>[]): number {
  let addedMm = 0;
  for (const { variable, value } of settings) {
    const { kind, screw, pieceIndex } = variable;
    if (kind === 'length') addedMm += Math.max(0, value);
    else if (kind === 'letIn') addedMm += value;
    else if (kind === 'newAngle') addedMm += screw.lengthPer * value;
    else if (kind === 'swap' || (kind === 'angle' && value > 0)) {
      const oldMm = lengthAtMm(problem, pieceIndex);
      const newMm = oldMm + screw.lengthShiftMm + screw.lengthPer * value;
      // A bend that is not cut yet only takes what it gains.
      const isPlanned = problem.pieces[pieceIndex]?.state === 'planned';
      addedMm += isPlanned ? Math.max(0, newMm - oldMm) : newMm;
    }
  }
  return addedMm;
}

/** Straights that get longer or come in, and bends that are not cut out of the one there. */
export function stockNeeds({ stock, tube }: MoveProblem, settings: readonly Setting[]): readonly StockNeed[] {
  if (stock === null) return [];
  return settings.flatMap(({ variable, value, length, angleDeg }): readonly StockNeed[] => {
    const isLonger = variable.kind === 'letIn' || (variable.kind === 'length' && value > 0);
    if (isLonger && length !== null) return [straightNeed(stock, tube, mmOf(length))];
    const isFresh =
      variable.kind === 'swap' || variable.kind === 'newAngle' || (variable.kind === 'angle' && value > 0);
    if (!isFresh || variable.clr === null || angleDeg === null) return [];
    return [bendNeed(stock, tube, { clr: variable.clr, angleDeg })];
  });
}
