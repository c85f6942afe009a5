/** Moves for all primaries of a header at once, and whether another target would take fewer joints. */

import type { Header, Target } from '../header/header.ts';
import { matchHeader } from '../length/match-header.ts';
import type { MoveOptions } from './question.ts';
import { SearchInSlices, searchThrough } from './search-in-slices.ts';
import { isAllThere } from './whole/all-there.ts';
import { type Span, targetBetween } from './whole/between-targets.ts';
import { comparePlans, type HeaderPlan, planFor } from './whole/header-plan.ts';
import { fineEdges, nextTo, targetsNear, targetsToTry } from './whole/targets-to-try.ts';

export type HeaderMovesOutcome =
  | {
      readonly kind: 'found';
      readonly asItIs: HeaderPlan;
      /** The best of all targets tried, where it leaves fewer primaries unsolved or takes fewer bends, joints or cuts; null otherwise. */
      readonly cheaper: HeaderPlan | null;
      /** The present target's plan, and of the others those that were the best when they were tried; best first. */
      readonly plans: readonly HeaderPlan[];
      /** False: the search was left before it was through, and better targets may exist. */
      readonly isExhausted: boolean;
    }
  | { readonly kind: 'none'; readonly reason: 'noTarget' | 'headerFinished' | 'nothingToDo' | 'notThrough' };

/**
 * Plans for the present target, for the length of each primary and the edges of their bands, for their mean, for a few targets close to the
 * best of these, for those between it and the next on both sides, and for the edges once more, typed finely; see
 * `whole/targets-to-try.ts` and `whole/between-targets.ts`. Each takes the best move of every primary that is out of band, see `whole/header-plan.ts`. The plans are
 * put in order of primaries unsolved, then the shop's own price where it has one, then bends added, then joints made, then cuts, then tube.
 */
export function suggestHeaderMoves(header: Header, options: MoveOptions = {}): HeaderMovesOutcome {
  return searchThrough(new HeaderMoveSearch(header, options));
}

/** The same search in slices. */
export class HeaderMoveSearch extends SearchInSlices<HeaderMovesOutcome> {
  readonly #plans: readonly HeaderPlan[];

  constructor(header: Header, options: MoveOptions = {}) {
    const plans: HeaderPlan[] = [];
    super(searchPlans(header, options, plans));
    this.#plans = plans;
  }

  /** What the targets tried until now came to, marked as not exhausted. */
  protected untilNow(): HeaderMovesOutcome {
    return outcomeOf(this.#plans, false);
  }
}

/** Adds plans as they are made. */
function* searchPlans(header: Header, options: MoveOptions, plans: HeaderPlan[]): Generator<void, HeaderMovesOutcome> {
  if (header.state === 'finished') return { kind: 'none', reason: 'headerFinished' };
  const match = matchHeader(header);
  if (match.targetMm === null) return { kind: 'none', reason: 'noTarget' };
  if (match.primaries.every((one) => !isAllThere(one) || one.side === 'inBand')) {
    return { kind: 'none', reason: 'nothingToDo' };
  }
  const planning = { header, options, plans };
  const targets = targetsToTry(header, match);
  const own = yield* bestOf(planning, targets, null);
  const near = own === null ? null : yield* bestOf(planning, targetsNear(header, own.targetMm), own);
  const between =
    near === null ? null : yield* bestBetween(planning, nextTo({ header, match }, targets, near.targetMm), near);
  // A little tube less is no reason for a figure that is harder to read.
  const round = between === null ? null : { ...between, tubeAddedMm: Number.NEGATIVE_INFINITY };
  if (round !== null) yield* bestOf(planning, fineEdges(header, match, round.targetMm), round);
  return outcomeOf(plans, true);
}

interface Planning {
  readonly header: Header;
  readonly options: MoveOptions;
  readonly plans: HeaderPlan[];
}

/** The best of these targets and of `before`. */
function* bestOf(
  { header, options, plans }: Planning,
  targets: readonly (Target | null)[],
  before: HeaderPlan | null,
): Generator<void, HeaderPlan | null> {
  let best = before;
  for (const target of targets) {
    const plan: HeaderPlan | null = yield* planFor(header, target, options, best);
    if (plan === null) continue;
    plans.push(plan);
    if (best === null || comparePlans(plan, best) < 0) best = plan;
  }
  return best;
}

/** The best of `best` and of what lies between it and these targets. */
function* bestBetween(
  { header, options, plans }: Planning,
  targets: readonly (Target | null)[],
  best: HeaderPlan,
): Generator<void, HeaderPlan> {
  let least = best;
  for (const target of targets) {
    const end = yield* planFor(header, target, options, null);
    if (end === null) continue;
    const spans = [inOrder(best, end)];
    for (let span = spans.pop(); span !== undefined; span = spans.pop()) {
      const middle = targetBetween(header, span, least);
      if (middle === null) continue;
      const plan = yield* planFor(header, middle, options, null);
      if (plan === null) continue;
      if (comparePlans(plan, least) < 0) {
        plans.push(plan);
        least = plan;
      }
      spans.push({ low: span.low, high: plan }, { low: plan, high: span.high });
    }
  }
  return least;
}

function inOrder(a: HeaderPlan, b: HeaderPlan): Span {
  return a.targetMm < b.targetMm ? { low: a, high: b } : { low: b, high: a };
}

function outcomeOf(plans: readonly HeaderPlan[], isExhausted: boolean): HeaderMovesOutcome {
  const [asItIs] = plans;
  if (asItIs === undefined) return { kind: 'none', reason: 'notThrough' };
  const ranked = [...plans].sort(comparePlans);
  const best = ranked[0] ?? asItIs;
  // A little tube less is no reason to move the target.
  const isCheaper = comparePlans({ ...best, tubeAddedMm: 0 }, { ...asItIs, tubeAddedMm: 0 }) < 0;
  return { kind: 'found', asItIs, cheaper: isCheaper ? best : null, plans: ranked, isExhausted };
}
