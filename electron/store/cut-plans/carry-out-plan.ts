/** Carries out a cut plan, in both books or in neither: stock goes, remnants come, and the header's pieces are cut. */

import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import type { AskedOf } from '../../bridge/contract.ts';
import { takeSteps } from '../header/commit-steps.ts';
import type { Standing } from '../header/standing.ts';
import type { StepMade, Written } from '../shelf/shelf.ts';
import type { Tables } from '../tables.ts';

export interface CarriedOut {
  readonly standing: Standing;
  readonly written: Written;
}

/**
 * In a transaction of whoever calls. Refused: header or stock changed since the plan was made, and whatever either book refuses.
 * @param made its id is that of the step in both books
 */
export function carryOutPlan(
  tables: Tables,
  { headerId, baseRevision, edit, changes, known, because, kept }: AskedOf<'carryOutCutPlan'>,
  made: StepMade,
): Result<CarriedOut, Problem> {
  const stock = new Map(tables.shelf.list().map(({ item, revision }) => [item.id, revision]));
  for (const { itemId, revision } of known) {
    const found = stock.get(itemId);
    if (found === undefined) return failure({ kind: 'notFound', what: 'stockItem', id: itemId });
    if (found !== revision) return failure({ kind: 'changedElsewhere', expected: revision, found });
  }
  const steps = [{ action: 'do', stepId: made.requestId, edit }] as const;
  const taken = takeSteps(tables, { headerId, baseRevision, steps }, made.at);
  if (!taken.ok) return taken;
  const written = tables.shelf.commit(changes, because, made);
  if (!written.ok) return written;
  tables.cutPlans.keep(written.value.step, headerId, kept);
  return success({ standing: taken.value.standing, written: written.value });
}
