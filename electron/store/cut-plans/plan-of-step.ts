/** Whether a step is one with a step of the stock book. */

import type { Tables } from '../tables.ts';

export interface PlanOfStep {
  /** Of the step of the stock book that carried the plan out. */
  readonly place: number;
  /** What the step did to the plan. */
  readonly action: 'do' | 'undo' | 'redo';
  /** All headers whose pieces the plan cut. */
  readonly headerIds: readonly string[];
}

/** The plan that a step of a header carried out, undid or did again, by the id that they share; null where it is of no plan. */
export function planOfStep({ shelf, cutPlans }: Tables, stepId: string): PlanOfStep | null {
  const half = shelf.stepOf(stepId);
  const headerIds = half === null ? [] : cutPlans.headersOf(half.place);
  return half === null || headerIds.length === 0 ? null : { ...half, headerIds };
}
