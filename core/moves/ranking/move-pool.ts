/** The best moves found so far, and how good the next one has to be. */

import { mmOf } from '../../units/length.ts';
import { type EndAim, type EndMiss, isMet, missAt } from '../turning/miss.ts';
import type { JointDemand } from '../problem/joints.ts';
import type { MoveChange, MoveKind, StockNeed } from '../move.ts';
import { changesOf } from '../offer/move-changes.ts';
import { type CostFigures, CostTally, compareCosts, keyParts, largestKeyWith, type Touch } from './move-cost.ts';
import type { MoveProblem } from '../problem/move-problem.ts';
import { roundToSaw, type Setting } from '../offer/saw-steps.ts';
import { settleEnd } from '../turning/settle.ts';
import { bendNeed, isLacking, straightNeed } from './stock-needs.ts';
import { lengthAtMm, type Variable } from '../problem/variables.ts';

export interface Candidate {
  readonly kind: MoveKind;
  /** In order along the tube. */
  readonly changes: readonly MoveChange[];
  readonly demands: readonly JointDemand[];
  /** Places changed, so that a move with more changes on top can be told. */
  readonly slots: readonly number[];
  readonly cost: CostFigures;
  readonly key: number;
  readonly tubeAddedMm: number;
  readonly needs: readonly StockNeed[];
  /** What is changed, whatever to. */
  readonly signature: string;
}

export interface PoolLimits {
  /** Held pieces may be touched, at the highest price, and then as many joints as it takes. */
  readonly mayTouchHeld: boolean;
  readonly mostJoints: number;
  readonly most: number;
  readonly kinds: readonly MoveKind[];
}

export class MovePool {
  readonly problem: MoveProblem;
  readonly aim: EndAim;
  readonly limits: PoolLimits;
  /** For walks through sets of changes; every walk leaves it empty. */
  readonly tally: CostTally;
  private readonly ownTally: CostTally;
  private candidates: Candidate[] = [];
  /** The best that any search came to without getting there. */
  nearest: EndMiss | null = null;
  /** A move was right but no rounding of it was. */
  hasLostToRounding = false;
  isStopped = false;
  private readonly hardKey: number;

  constructor(problem: MoveProblem, aim: EndAim, limits: PoolLimits) {
    this.problem = problem;
    this.aim = aim;
    this.limits = limits;
    this.tally = new CostTally(problem);
    this.ownTally = new CostTally(problem);
    this.hardKey = limits.mayTouchHeld ? Number.POSITIVE_INFINITY : largestKeyWith(limits.mostJoints);
  }

  get found(): readonly Candidate[] {
    return this.candidates;
  }

  /** No set of changes with a larger key can still get in. */
  readonly keyLimit = (): number => {
    const last = this.candidates[this.limits.most - 1];
    return last === undefined ? this.hardKey : Math.min(this.hardKey, last.key);
  };

  keyOf(touches: readonly Touch[]): number {
    return this.ownTally.keyOf(touches);
  }

  readonly shouldStop = (): boolean => {
    if (!this.isStopped && this.problem.options.shouldStop?.() === true) this.isStopped = true;
    return this.isStopped;
  };

  isWorthWhile(key: number): boolean {
    return key <= this.keyLimit();
  }

  /** Settles the variables from a start and takes the move in if it works; true when it does. */
  settle(variables: readonly Variable[], start: ArrayLike<number>): boolean {
    const screws = variables.map(({ screw }) => screw);
    const low = variables.map((variable) => variable.low - variable.present);
    const high = variables.map((variable) => variable.high - variable.present);
    for (const [i, variable] of variables.entries()) if (variable.isFixed) low[i] = high[i] = 0;
    const { values, miss } = settleEnd(this.aim, screws, start, { low, high });
    this.noteMiss(miss);
    return isMet(miss, this.aim) && this.offer(variables, values);
  }

  noteMiss(miss: EndMiss): void {
    const size = ({ gapMm, tiltDeg, outsideMm }: EndMiss) => gapMm + outsideMm + 5 * tiltDeg;
    if (this.nearest === null || size(miss) < size(this.nearest)) this.nearest = miss;
  }

  /** Rounds exact values and keeps the move if it is among the best; false when no rounding works. */
  offer(variables: readonly Variable[], values: ArrayLike<number>): boolean {
    const { header, options } = this.problem;
    const rounding = { style: header.settings.display, isOff: options.rounding === 'none' };
    const rounded = roundToSaw(this.aim, { variables, values }, rounding);
    if (rounded === null) {
      this.hasLostToRounding = true;
      return false;
    }
    const settings = rounded.filter(
      ({ variable, value }) =>
        variable.isFixed || variable.kind === 'letIn' || variable.kind === 'swap' || Math.abs(value) > 1e-6,
    );
    if (settings.length === 0) return false;
    return this.keep(settings);
  }

  private keep(settings: readonly Setting[]): boolean {
    const { problem, aim } = this;
    const variables = settings.map(({ variable }) => variable);
    const key = this.keyOf(variables);
    const miss = missAt(
      aim,
      variables.map(({ screw }) => screw),
      settings.map(({ value }) => value),
    );
    return this.take({
      kind: kindOf(settings),
      changes: changesOf(problem, settings),
      demands: variables.map(({ demand }) => demand),
      slots: variables.map(({ slot }) => slot),
      key,
      tubeAddedMm: tubeAddedMm(problem, settings),
      needs: stockNeeds(problem, settings),
      offMm: Math.abs(miss.lengthMm - aim.window.aimMm),
    });
  }

  /** Takes a finished move in if it is good enough; always true, since it is a move. */
  take({ offMm, ...move }: Omit<Candidate, 'cost' | 'signature'> & { readonly offMm: number }): true {
    if (!this.limits.kinds.includes(move.kind) || !this.isWorthWhile(move.key)) return true;
    // More changes on top of a move that works without them are no other move.
    const isPadded = this.candidates.some(
      (other) => other.key < move.key && other.slots.every((slot) => move.slots.includes(slot)),
    );
    if (isPadded) return true;
    const cost: CostFigures = {
      ...keyParts(move.key),
      tubeMm: move.tubeAddedMm + this.problem.missWeights.offTarget * offMm,
      lacking: move.needs.filter(isLacking).length,
      offMm,
      tightMm: 0,
    };
    const signature = `${move.kind} ${move.slots.join()} ${move.changes.map(clrMark).join()}`;
    const rival = this.candidates.findIndex((other) => other.signature === signature);
    // The same things changed to a little other figures are one move: the better is kept.
    if (rival >= 0 && compareCosts((this.candidates[rival] as Candidate).cost, cost) <= 0) return true;
    if (rival >= 0) this.candidates.splice(rival, 1);
    this.candidates.push({ ...move, cost, signature });
    this.candidates.sort((a, b) => compareCosts(a.cost, b.cost));
    if (this.candidates.length > 2 * this.limits.most) this.candidates.length = 2 * this.limits.most;
    return true;
  }
}

function clrMark(change: MoveChange): string {
  if (change.kind === 'swap') return `${change.toClr.value}${change.toClr.unit}`;
  return change.kind === 'kick' || change.kind === 'bendPair' ? `${change.clr.value}${change.clr.unit}` : change.kind;
}

export function kindOf(settings: readonly { readonly variable: Variable }[]): MoveKind {
  const has = (kind: Variable['kind']) => settings.some(({ variable }) => variable.kind === kind);
  if (has('swap')) return 'swaps';
  if (has('angle')) return 'trims';
  return has('clocking') ? 'clockings' : 'straights';
}

/** See `move-cost.ts`. */
export function tubeAddedMm(problem: MoveProblem, settings: readonly Setting[]): number {
  let addedMm = 0;
  for (const { variable, value } of settings) {
    const { kind, screw, pieceIndex } = variable;
    if (kind === 'length') addedMm += Math.max(0, value);
    else if (kind === 'letIn') addedMm += value;
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
    const isFresh = variable.kind === 'swap' || (variable.kind === 'angle' && value > 0);
    if (!isFresh || variable.clr === null || angleDeg === null) return [];
    return [bendNeed(stock, tube, { clr: variable.clr, angleDeg })];
  });
}
