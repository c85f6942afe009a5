/** Carries out a cut plan, in all books or in none: stock goes, remnants come, and the headers' pieces are cut. */

import { failure, type Problem, type Result } from '../../../core/index.ts';
import type { AskedOf } from '../../bridge/contract.ts';
import { takeSteps } from '../header/commit-steps.ts';
import type { StepMade, Written } from '../shelf/shelf.ts';
import type { Tables } from '../tables.ts';

/**
 * In a transaction of whoever calls. Refused: a header or stock changed since the plan was made, and whatever one of the books refuses.
 * @param made its id is that of the step in each book
 */
export function carryOutPlan(
  tables: Tables,
  { headers, changes, known, because, kept }: AskedOf<'carryOutCutPlan'>,
  made: StepMade,
): Result<Written, Problem> {
  const changed = changedSince(tables, known);
  if (changed !== null) return changed;
  for (const { headerId, baseRevision, edit } of headers) {
    const steps = [{ action: 'do', stepId: made.requestId, edit }] as const;
    const taken = takeSteps(tables, { headerId, baseRevision, steps }, made.at);
    if (!taken.ok) return taken;
  }
  const written = tables.shelf.commit(changes, because, made);
  if (!written.ok) return written;
  for (const { headerId } of headers) tables.cutPlans.keep(written.value.step, headerId, kept);
  return written;
}

/** Refuses stock that is not as the plan was made with. */
function changedSince({ shelf }: Tables, known: AskedOf<'carryOutCutPlan'>['known']): Result<never, Problem> | null {
  const stock = new Map(shelf.list().map(({ item, revision }) => [item.id, revision]));
  for (const { itemId, revision } of known) {
    const found = stock.get(itemId);
    if (found === undefined) return failure({ kind: 'notFound', what: 'stockItem', id: itemId });
    if (found !== revision) return failure({ kind: 'changedElsewhere', expected: revision, found });
  }
  return null;
}
