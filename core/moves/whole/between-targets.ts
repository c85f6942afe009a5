/** Targets between those tried, where the primaries' cheapest moves of both sides may be had together. */

import type { Header } from '../../header/header.ts';
import { MM_PER_INCH } from '../../units/length.ts';
import { unitOf } from '../../units/length-style.ts';
import { comparePlans, type HeaderPlan, type PlanPrice, type PrimaryPlan, priceOf } from './header-plan.ts';
import { type TypedTarget, typedToPart } from './targets-to-try.ts';

/** Plans for two targets. */
export interface Span {
  readonly low: HeaderPlan;
  readonly high: HeaderPlan;
}

/** No span is cut into halves of less: 1/32 in or 1 mm. */
const LEAST_SPAN_MM = { in: MM_PER_INCH / 32, mm: 1 } as const;

/**
 * The middle of a span, where a target between its ends may take fewer joints than `best`; null where it may not, or the span is narrow.
 *
 * What a primary takes grows with how far it has to go, so that between two targets it takes at least what it takes at the cheaper of both. One primary may
 * be cheap from some target up and another down to some target: then both are cheap only in between, and neither end tells.
 */
export function targetBetween(header: Header, { low, high }: Span, best: PlanPrice): TypedTarget | null {
  const narrow = LEAST_SPAN_MM[unitOf(header.settings.display)];
  if (high.targetMm - low.targetMm < 2 * narrow) return null;
  const { newCuts, tubeAddedMm } = best;
  const least = { ...priceOf(cheaperOfEach(low, high)), newCuts, tubeAddedMm };
  return comparePlans(least, best) < 0 ? typedToPart(header, (low.targetMm + high.targetMm) / 2) : null;
}

/** For each primary its plan at the end that takes less of it; none where one end leaves it as it is. */
function cheaperOfEach(low: HeaderPlan, high: HeaderPlan): readonly PrimaryPlan[] {
  return low.primaries.flatMap((one) => {
    const other = high.primaries.find(({ primaryId }) => primaryId === one.primaryId);
    if (other === undefined) return [];
    return comparePlans(priceOf([other]), priceOf([one])) < 0 ? [other] : [one];
  });
}
