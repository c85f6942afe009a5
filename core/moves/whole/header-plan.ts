/** What it takes to bring every primary of a header to one target. */

import { applyEdit, applyEdits } from '../../edits/apply-edit.ts';
import type { BatchEdit, SingleEdit } from '../../edits/edit.ts';
import type { Header, Primary, Target } from '../../header/header.ts';
import { type MatchReport, matchHeader } from '../../length/match-header.ts';
import type { Move } from '../move.ts';
import { freshIds } from '../offer/fresh-ids.ts';
import type { MoveOutcome } from '../outcome.ts';
import { fixedEnds, standingOf } from '../problem/fixed-ends.ts';
import type { MoveOptions } from '../question.ts';
import { MoveSearch } from '../suggest-moves.ts';
import { isAllThere } from './all-there.ts';
import { inDependence } from './dependence.ts';
import { typedTarget } from './targets-to-try.ts';

export interface PrimaryPlan {
  readonly primaryId: string;
  readonly outcome: MoveOutcome;
}

export interface HeaderPlan {
  /** Null: the header's own target, as it is. */
  readonly target: Target | null;
  readonly targetMm: number;
  /** Primaries out of the band of this target, and those left open by one that they end at, with their moves. */
  readonly primaries: readonly PrimaryPlan[];
  /** The first move of each, and the new target where there is one; null when there is nothing to change. */
  readonly edit: BatchEdit | null;
  /** In the shop's own unit; null where it gave no prices. */
  readonly price: number | null;
  readonly bendsAdded: number;
  readonly jointsMade: number;
  readonly newCuts: number;
  readonly tubeAddedMm: number;
  /** Primaries that no move was found for. */
  readonly unsolved: readonly string[];
  /** The header after `edit`. */
  readonly after: MatchReport | null;
}

/** What one plan takes, in the order in which it counts. */
export type PlanPrice = Pick<
  HeaderPlan,
  'unsolved' | 'price' | 'bendsAdded' | 'jointsMade' | 'newCuts' | 'tubeAddedMm'
>;

/** Negative when `a` takes less. */
export function comparePlans(a: PlanPrice, b: PlanPrice): number {
  return (
    a.unsolved.length - b.unsolved.length ||
    (a.price ?? 0) - (b.price ?? 0) ||
    a.bendsAdded - b.bendsAdded ||
    a.jointsMade - b.jointsMade ||
    a.newCuts - b.newCuts ||
    a.tubeAddedMm - b.tubeAddedMm
  );
}

/** Pauses of one primary's search after which its best so far is taken: about a third of a second; and where there is none yet, about a whole one. */
const MOST_PAUSES = 3000;
const MOST_IN_VAIN = 9000;

/**
 * The plan for a target; null as soon as it takes more than the plan it is to beat.
 *
 * One primary after another, those that others end at first, each on the header as the moves before have left it: so a primary that
 * ends at another's end follows it, and gaps between two that both move are those after both moves.
 */
export function* planFor(
  header: Header,
  target: Target | null,
  options: MoveOptions,
  toBeat: PlanPrice | null,
): Generator<void, HeaderPlan | null> {
  let now = withTarget(header, target);
  const primaries: PrimaryPlan[] = [];
  const newId = options.newId ?? freshIds({ header, options });
  for (const primary of inDependence(header)) {
    if (!needsMove(header, now, primary)) continue;
    yield;
    const search = new MoveSearch(now, primary.id, { ...options, maxMoves: 1, newId });
    const outcome = yield* bestSoon(search);
    primaries.push({ primaryId: primary.id, outcome });
    const [move] = movesOf([{ primaryId: primary.id, outcome }]);
    const applied = move === undefined ? null : applyEdit(now, move.edit);
    if (applied?.ok === true) now = applied.value.header;
    if (toBeat !== null && comparePlans(priceOf(primaries), toBeat) > 0) return null;
  }
  return {
    target,
    targetMm: matchHeader(withTarget(header, target)).targetMm ?? 0,
    primaries,
    ...editOf(header, target, movesOf(primaries)),
    ...priceOf(primaries),
  };
}

/** What a while of searching comes to. A primary without a move makes the whole plan one to be passed over, so for that it goes on longer. */
function* bestSoon(search: MoveSearch): Generator<void, MoveOutcome> {
  for (const most of [MOST_PAUSES, MOST_IN_VAIN]) {
    for (let pauses = 0; pauses < most && !search.look(() => true); pauses += 1) yield;
    while (!search.windUp(() => true)) yield;
    yield;
    if (search.soFar().kind === 'found') break;
  }
  return search.soFar();
}

function movesOf(primaries: readonly PrimaryPlan[]): readonly Move[] {
  return primaries.flatMap(({ outcome }) => (outcome.kind === 'found' ? outcome.moves.slice(0, 1) : []));
}

/** What the first moves of these primaries take together. */
export function priceOf(primaries: readonly PrimaryPlan[]): PlanPrice {
  const moves = movesOf(primaries);
  const sum = (figure: (move: Move) => number) => moves.reduce((total, move) => total + figure(move), 0);
  const isPriced = moves.some(({ cost }) => cost.price !== null);
  return {
    price: isPriced ? Number(sum(({ cost }) => cost.price ?? 0).toFixed(3)) : null,
    bendsAdded: sum(({ cost }) => cost.bendsAdded),
    jointsMade: sum(({ cost }) => cost.jointsMade),
    newCuts: sum(({ cost }) => cost.newCuts),
    tubeAddedMm: sum(({ cost }) => cost.tubeAddedMm),
    unsolved: primaries.flatMap(({ primaryId, outcome }) => (outcome.kind === 'found' ? [] : [primaryId])),
  };
}

/** Out of the band, or closed before and left open by a move of the primary that it ends at. */
function needsMove(before: Header, now: Header, { id }: Primary): boolean {
  const own = matchHeader(now).primaries.find(({ primaryId }) => primaryId === id);
  if (own === undefined || !isAllThere(own)) return false;
  return own.side !== 'inBand' || (isClosed(before, id) && !isClosed(now, id));
}

function isClosed(header: Header, primaryId: string): boolean {
  const primary = header.primaries.find(({ id }) => id === primaryId);
  if (primary === undefined) return false;
  return standingOf(matchHeader(header), primaryId, fixedEnds(header, primary)).isClosed;
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
      primaries.filter((match) => isAllThere(match) && match.side !== 'inBand').length;
    if (best.after === null || outside(after) < outside(best.after)) best = { edit, after };
  }
  return best;
}
