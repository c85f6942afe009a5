/** Moves for all primaries of a header at once, and whether another target would take fewer joints. */

import { applyEdits } from '../edits/apply-edit.ts';
import type { BatchEdit, SingleEdit } from '../edits/edit.ts';
import type { Header, Target } from '../header/header.ts';
import { type MatchReport, matchHeader } from '../length/match-header.ts';
import { lengthIn } from '../units/length.ts';
import { unitOf } from '../units/length-style.ts';
import type { Move } from './move.ts';
import { freshIds } from './offer/fresh-ids.ts';
import type { MoveOutcome } from './outcome.ts';
import type { MoveOptions } from './question.ts';
import { MoveSearch } from './suggest-moves.ts';

export interface PrimaryPlan {
  readonly primaryId: string;
  readonly outcome: MoveOutcome;
}

/** What it takes to bring every primary to one target. */
export interface HeaderPlan {
  /** Null: the header's own target, as it is. */
  readonly target: Target | null;
  readonly targetMm: number;
  /** Primaries out of the band of this target, with their moves. */
  readonly primaries: readonly PrimaryPlan[];
  /** The first move of each, and the new target where there is one; null when there is nothing to change. */
  readonly edit: BatchEdit | null;
  readonly bendsAdded: number;
  readonly jointsMade: number;
  readonly newCuts: number;
  readonly tubeAddedMm: number;
  /** Primaries that no move was found for. */
  readonly unsolved: readonly string[];
  /** The header after `edit`. */
  readonly after: MatchReport | null;
}

export type HeaderMovesOutcome =
  | {
      readonly kind: 'found';
      readonly asItIs: HeaderPlan;
      /** The best of all targets tried, where it leaves fewer primaries unsolved or takes fewer joints; null otherwise. */
      readonly cheaper: HeaderPlan | null;
      /** All plans, best first, the one with the present target among them. */
      readonly plans: readonly HeaderPlan[];
    }
  | { readonly kind: 'none'; readonly reason: 'noTarget' | 'headerFinished' | 'nothingToDo' };

/**
 * Plans for the present target, for the length of each primary, and for their mean. Each takes the best move of every primary
 * that is out of band, one primary at a time: primaries share no pieces, only the target, which a plan holds still. The plans are
 * put in order of primaries unsolved, then bends added, then joints made, then cuts, then tube.
 */
export function suggestHeaderMoves(header: Header, options: MoveOptions = {}): HeaderMovesOutcome {
  const search = new HeaderMoveSearch(header, options);
  search.look(() => false);
  return search.outcome as HeaderMovesOutcome;
}

/** The same search in slices; see `MoveSearch`. */
export class HeaderMoveSearch {
  readonly #steps: Generator<void, HeaderMovesOutcome>;
  /** Null until it is through. */
  outcome: HeaderMovesOutcome | null = null;

  constructor(header: Header, options: MoveOptions = {}) {
    this.#steps = searchPlans(header, options);
  }

  /** Looks on until it is through or `isTimeUp` says yes, which is asked every millisecond or so. True: it is through. */
  look(isTimeUp: () => boolean): boolean {
    while (this.outcome === null) {
      const { done, value } = this.#steps.next();
      if (done === true) this.outcome = value;
      else if (isTimeUp()) return false;
    }
    return true;
  }
}

function* searchPlans(header: Header, options: MoveOptions): Generator<void, HeaderMovesOutcome> {
  if (header.state === 'finished') return { kind: 'none', reason: 'headerFinished' };
  const match = matchHeader(header);
  if (match.targetMm === null) return { kind: 'none', reason: 'noTarget' };
  if (match.primaries.every(({ verdict }) => verdict === null || verdict === 'inBand')) {
    return { kind: 'none', reason: 'nothingToDo' };
  }
  const plans: HeaderPlan[] = [];
  for (const target of targetsToTry(header, match)) plans.push(yield* planFor(header, target, options));
  const [asItIs] = plans;
  if (asItIs === undefined) return { kind: 'none', reason: 'noTarget' };
  const ranked = [...plans].sort(comparePlans);
  const [best] = ranked;
  const isCheaper =
    best !== undefined &&
    best !== asItIs &&
    (best.unsolved.length < asItIs.unsolved.length ||
      (best.unsolved.length === asItIs.unsolved.length && best.jointsMade < asItIs.jointsMade));
  return { kind: 'found', asItIs, cheaper: isCheaper ? best : null, plans: ranked };
}

function comparePlans(a: HeaderPlan, b: HeaderPlan): number {
  return (
    a.unsolved.length - b.unsolved.length ||
    a.bendsAdded - b.bendsAdded ||
    a.jointsMade - b.jointsMade ||
    a.newCuts - b.newCuts ||
    a.tubeAddedMm - b.tubeAddedMm
  );
}

/** The present target first; lengths that are the same to a hundredth of a millimetre are tried once. */
function targetsToTry(header: Header, match: MatchReport): readonly (Target | null)[] {
  const targets: (Target | null)[] = [null];
  const tried = [match.targetMm ?? 0];
  const isNew = (mm: number) => {
    if (tried.some((other) => Math.abs(other - mm) < 0.01)) return false;
    tried.push(mm);
    return true;
  };
  for (const { primaryId, lengthMm, verdict } of match.primaries) {
    if (verdict !== null && isNew(lengthMm)) targets.push({ kind: 'primary', primaryId });
  }
  if (match.meanMm !== null && isNew(match.meanMm)) targets.push(typedTarget(header, match.meanMm));
  return targets;
}

function typedTarget(header: Header, mm: number): Target {
  return { kind: 'typed', length: lengthIn(mm, unitOf(header.settings.display)) };
}

function* planFor(header: Header, target: Target | null, options: MoveOptions): Generator<void, HeaderPlan> {
  const aimed = withTarget(header, target);
  const match = matchHeader(aimed);
  const newId = options.newId ?? freshIds({ header, options });
  const primaries: PrimaryPlan[] = [];
  for (const { primaryId, verdict } of match.primaries) {
    if (verdict === null || verdict === 'inBand') continue;
    const search = new MoveSearch(aimed, primaryId, { ...options, maxMoves: 1, newId });
    while (!search.look(() => true)) yield;
    primaries.push({ primaryId, outcome: search.soFar() });
  }
  const moves = primaries.flatMap(({ outcome }) => (outcome.kind === 'found' ? outcome.moves.slice(0, 1) : []));
  const sum = (figure: (move: Move) => number) => moves.reduce((total, move) => total + figure(move), 0);
  return {
    target,
    targetMm: match.targetMm ?? 0,
    primaries,
    ...editOf(header, target, moves),
    bendsAdded: sum(({ cost }) => cost.bendsAdded),
    jointsMade: sum(({ cost }) => cost.jointsMade),
    newCuts: sum(({ cost }) => cost.newCuts),
    tubeAddedMm: sum(({ cost }) => cost.tubeAddedMm),
    unsolved: primaries.flatMap(({ primaryId, outcome }) => (outcome.kind === 'found' ? [] : [primaryId])),
  };
}

/** The header as the moves are to see it: a mean would run away from them, so it is held at what it is. */
function withTarget(header: Header, target: Target | null): Header {
  if (target !== null) return { ...header, settings: { ...header.settings, target } };
  if (header.settings.target.kind !== 'mean') return header;
  const { targetMm } = matchHeader(header);
  return targetMm === null ? header : withTarget(header, typedTarget(header, targetMm));
}

/** All moves as one step. When a mean does not stand still under them, the target is typed in as part of it. */
function editOf(header: Header, target: Target | null, moves: readonly Move[]): Pick<HeaderPlan, 'edit' | 'after'> {
  const edits = moves.flatMap((move): readonly SingleEdit[] => move.edit.edits);
  const setTarget = (wanted: Target): SingleEdit => ({ kind: 'setSettings', set: { target: wanted } });
  const held = withTarget(header, target).settings.target;
  const choices = target === null ? [edits, [...edits, setTarget(held)]] : [[...edits, setTarget(target)]];
  let best: Pick<HeaderPlan, 'edit' | 'after'> = { edit: null, after: null };
  for (const choice of choices) {
    if (choice.length === 0) continue;
    const applied = applyEdits(header, choice);
    if (!applied.ok) continue;
    const after = matchHeader(applied.value.header);
    const edit: BatchEdit = { kind: 'batch', label: 'moves on several primaries', edits: choice };
    const outside = ({ primaries }: MatchReport) =>
      primaries.filter(({ verdict }) => verdict === 'short' || verdict === 'long').length;
    if (best.after === null || outside(after) < outside(best.after)) best = { edit, after };
  }
  return best;
}
