/** Turns the stock book back along with a step of a header that cut its pieces by a plan. */

import { type Problem, type Result, success } from '../../../core/index.ts';
import type { StepMade } from '../shelf/shelf.ts';
import type { Tables } from '../tables.ts';

/**
 * A step of a header and a step of the stock book that have one id are one act. Turns the latter back where there is one, by the
 * id that the header's turning back has; false: the step has no such other half.
 *
 * Refused when the stock was changed or used since.
 */
export function turnShelfWith(tables: Tables, stepId: string, made: StepMade): Result<boolean, Problem> {
  const { shelf, cutPlans } = tables;
  const half = shelf.stepOf(stepId);
  if (half === null || cutPlans.headerOf(half.place) === null) return success(false);
  const turned = shelf.turnBack(half.action === 'undo' ? 'redo' : 'undo', half.place, made);
  return turned.ok ? success(true) : turned;
}
