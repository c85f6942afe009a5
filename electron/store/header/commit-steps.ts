/** The one door through which a header changes: each step becomes a row of the journal, and nothing else is written of it. */

import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import type { RequestOf } from '../../bridge/contract.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import { turnShelfWith } from '../cut-plans/turn-shelf.ts';
import type { Tables } from '../tables.ts';
import { type Change, doEdit, standingOf, turnRow, writeStep } from './make-step.ts';
import type { Standing } from './standing.ts';

type Request = ReadOnly<RequestOf<'commitSteps'>>;
type Step = Request['steps'][number];

/**
 * Commits the steps that are not committed yet. Answered only after COMMIT has returned; all steps are in, or none is.
 * A request sent again answers as it did the first time. A step that cut pieces by a plan takes the stock book along when it is
 * turned back; `movedStock` says so. Problems: notFound, finished, damagedHeader, changedElsewhere, nothingToUndo,
 * stockChangedSince, and whatever applying the edit refuses.
 */
export function commitSteps(
  tables: Tables,
  request: Request,
  now: Date,
): Result<{ readonly revision: number; readonly movedStock?: true }, Problem> {
  const taken = tables.inTransaction(() => {
    const after = takeSteps(tables, request, now);
    // The draft sent along is written with the steps; one for a header that is not there never gets here.
    if (after.ok && request.draft !== undefined) tables.drafts.save(request.headerId, request.draft);
    return after;
  });
  if (!taken.ok) return taken;
  const { standing, revision, movedStock } = taken.value;
  tables.standings.set(standing);
  return success({ revision, ...(movedStock && { movedStock }) });
}

interface Taken {
  /** The header as it stands now; to be remembered once it is committed. */
  readonly standing: Standing;
  /** To which the steps of the request led. */
  readonly revision: number;
  readonly movedStock: boolean;
}

/** In a transaction of whoever calls. */
export function takeSteps(tables: Tables, request: Request, now: Date): Result<Taken, Problem> {
  const found = standingOf(tables, request.headerId);
  if (!found.ok) return found;
  const start = found.value;
  const committed = committedBefore(tables, start, request);
  const expected = request.baseRevision + committed;
  const steps = request.steps.slice(committed);
  let standing = start;
  let movedStock = false;
  for (const step of steps) {
    const { header, revision } = standing;
    if (header.state === 'finished') return failure({ kind: 'finished', name: header.name });
    if (standing === start && revision !== expected)
      return failure({ kind: 'changedElsewhere', expected, found: revision });
    const made = step.action === 'do' ? doStep(standing, step.edit) : turnBack(tables, standing, step, now);
    if (!made.ok) return made;
    standing = writeStep(tables, standing, { change: made.value.change, stepId: step.stepId, now });
    movedStock ||= made.value.movedStock;
  }
  return success({ standing, revision: steps.length === 0 ? expected : standing.revision, movedStock });
}

/** How many of the first steps are in the journal already: those of a request sent again follow its base revision. */
function committedBefore({ journal }: Tables, { revision }: Standing, request: Request): number {
  const { headerId, baseRevision, steps } = request;
  if (revision <= baseRevision) return 0;
  const isMissing = ({ stepId }: Step, at: number) => journal.find(headerId, baseRevision + 1 + at)?.step_id !== stepId;
  const count = steps.findIndex(isMissing);
  return count < 0 ? steps.length : count;
}

interface Made {
  readonly change: Change;
  readonly movedStock: boolean;
}

function doStep(standing: Standing, edit: Extract<Step, { action: 'do' }>['edit']): Result<Made, Problem> {
  const change = doEdit(standing, edit);
  return change.ok ? success({ change: change.value, movedStock: false }) : change;
}

/** Undo and redo, and what they turn back on the shelf. */
function turnBack(
  tables: Tables,
  standing: Standing,
  { action, stepId }: Extract<Step, { action: 'undo' | 'redo' }>,
  now: Date,
): Result<Made, Problem> {
  const ofRevision = action === 'undo' ? standing.undoNext : standing.redoNext;
  if (ofRevision === null) return failure({ kind: 'nothingToUndo', action });
  const row = tables.journal.row(standing.header.id, ofRevision);
  const change = turnRow(tables, standing, { action, row });
  if (!change.ok) return change;
  const turned = turnShelfWith(
    tables,
    { headerId: standing.header.id, stepId: row.step_id },
    { requestId: stepId, at: now },
  );
  return turned.ok ? success({ change: change.value, movedStock: turned.value }) : turned;
}
