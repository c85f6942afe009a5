/** Turns the stock book back along with a step of a header that cut its pieces by a plan, and the other headers of the plan. */

import { type Problem, type Result, success } from '../../../core/index.ts';
import { turnStep } from '../header/turn-step.ts';
import type { StepMade } from '../shelf/shelf.ts';
import type { Tables } from '../tables.ts';
import { planOfStep } from './plan-of-step.ts';

/**
 * Steps of headers and of the stock book that have one id are one act. Turns back those of all but the header that is turned back
 * itself, by the id that its turning back has; false: the step stands alone.
 *
 * Refused when stock, or pieces of another header, were changed or used since.
 */
export function turnShelfWith(
  tables: Tables,
  { headerId, stepId }: { readonly headerId: string; readonly stepId: string },
  made: StepMade,
): Result<boolean, Problem> {
  const plan = planOfStep(tables, stepId);
  if (plan === null) return success(false);
  const turned = tables.shelf.turnBack(plan.action === 'undo' ? 'redo' : 'undo', plan.place, made);
  if (!turned.ok) return turned;
  const others = plan.headerIds.filter((id) => id !== headerId);
  const refused = turnSteps(tables, { headerIds: others, stepId }, made);
  return refused ?? success(true);
}

/** Turns back the step of each header; gives the first refusal, or null. */
export function turnSteps(
  tables: Tables,
  { headerIds, stepId }: { readonly headerIds: readonly string[]; readonly stepId: string },
  { requestId, at }: StepMade,
): Extract<Result<never, Problem>, { ok: false }> | null {
  for (const headerId of headerIds) {
    const turned = turnStep(tables, { headerId, stepId, asStep: requestId }, at);
    if (!turned.ok) return turned;
  }
  return null;
}
