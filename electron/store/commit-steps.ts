/** The one door through which a header changes: steps become journal rows and a new document in one transaction. */

import { applyCheckedEdit } from '../../core/header/apply-edit.ts';
import { describeEdit } from '../../core/header/describe-edit.ts';
import type { Problem } from '../../core/problem.ts';
import { failure, type Result, success } from '../../core/result.ts';
import type { RequestOf } from '../bridge/contract.ts';
import { DamagedRow } from './faults.ts';
import type { ChangeLabels, Stamp } from './header-table.ts';
import type { HistoryStep } from './journal.ts';
import { pushed } from './stack.ts';
import type { Standing } from './standings.ts';
import type { Tables } from './tables.ts';

type Request = RequestOf<'commitSteps'>;
type Step = Request['steps'][number];

/**
 * Commits the steps that are not committed yet. Answered only after COMMIT has returned; all steps are in, or none is.
 * A request sent again answers as it did the first time. Problems: notFound, finished, changedElsewhere,
 * nothingToUndo, invalidRequest for a step id used elsewhere, and whatever applying the edit refuses.
 */
export function commitSteps(tables: Tables, request: Request, now: string): Result<{ revision: number }, Problem> {
  let after: Standing | null = null;
  const result = tables.inTransaction<{ revision: number }, Problem>(() => {
    const stamp = tables.headers.stamp(request.headerId);
    if (!stamp) return failure({ kind: 'notFound', what: 'header', id: request.headerId });
    const committed = committedBefore(tables, stamp, request);
    const expected = request.baseRevision + committed;
    const steps = request.steps.slice(committed);
    if (steps.length === 0) return answer(tables, request, expected);
    if (stamp.state === 'finished') return failure({ kind: 'finished', name: stamp.name });
    if (stamp.revision !== expected) return failure({ kind: 'changedElsewhere', expected, found: stamp.revision });
    const standing = standingOf(tables, stamp, request.headerId);
    const applied = applySteps(tables, standing, steps);
    if (!applied.ok) return applied;
    after = store(tables, standing, applied.value, { changedAt: now, lastTouched: stamp.last_touched });
    return answer(tables, request, after.revision);
  });
  if (result.ok && after !== null) tables.standings.set(request.headerId, after);
  return result;
}

/** The draft sent along is written with the steps; one for a header that is not there never gets here. */
function answer({ drafts }: Tables, { headerId, draft }: Request, revision: number) {
  if (draft !== undefined) drafts.save(headerId, draft);
  return success({ revision });
}

/** How many of the first steps are in the journal already: those of a request sent again follow its base revision. */
function committedBefore({ journal }: Tables, { number, revision }: Stamp, { baseRevision, steps }: Request): number {
  if (revision <= baseRevision) return 0;
  const isThere = ({ stepId }: Step, index: number) => journal.stepIdAt(number, baseRevision + 1 + index) === stepId;
  const count = steps.findIndex((step, index) => !isThere(step, index));
  return count < 0 ? steps.length : count;
}

/** The header to build on, from memory when that is what is stored. Throws DamagedRow. */
function standingOf(tables: Tables, stamp: Stamp, headerId: string): Standing {
  const held = tables.standings.get(headerId);
  if (held && held.revision === stamp.revision && held.checksum === stamp.checksum) return held;
  const stored = tables.headers.read(headerId);
  if (!stored) throw new DamagedRow(`header ${headerId} cannot be found by its id`);
  return { ...stored, ...tables.journal.stacks(headerId) };
}

/** Appends each step to the journal. Returns the header as the last one leaves it. */
function applySteps(tables: Tables, start: Standing, steps: readonly Step[]): Result<Standing, Problem> {
  let standing = start;
  for (const step of steps) {
    const { header } = standing;
    if (header.state === 'finished') return failure({ kind: 'finished', name: header.name });
    const next = step.action === 'do' ? doStep(standing, step) : turnBack(tables, standing, step.action);
    if (!next.ok) return next;
    const { entry, after } = next.value;
    const { number } = standing;
    const { revision } = after;
    const { stepId, action } = step;
    const isNew = tables.journal.append({ headerId: header.id, number, revision, stepId, action, ...entry });
    if (!isNew) return failure({ kind: 'invalidRequest', call: 'commitSteps', detail: `step ${stepId} is used twice` });
    standing = after;
  }
  return success(standing);
}

type Entry = HistoryStep & { readonly ofRevision: number | null };
type Next = Result<{ readonly entry: Entry; readonly after: Standing }, Problem>;

function doStep(standing: Standing, { edit }: Extract<Step, { action: 'do' }>): Next {
  const applied = applyCheckedEdit(standing.header, edit);
  if (!applied.ok) return applied;
  const { header, inverse } = applied.value;
  const revision = standing.revision + 1;
  const after = { ...standing, header, revision, undo: pushed(standing.undo, revision), redo: null };
  return success({ entry: { label: describeEdit(edit, standing.header), edit, inverse, ofRevision: null }, after });
}

/** Undo applies the inverse of the last step, redo the edit of the last step undone: both come from the journal. */
function turnBack(tables: Tables, standing: Standing, action: 'undo' | 'redo'): Next {
  const { undo, redo } = standing;
  const from = action === 'undo' ? undo : redo;
  if (from === null) return failure({ kind: 'nothingToUndo', action });
  const ofRevision = from.top;
  const { label, edit, inverse } = tables.journal.step(standing, ofRevision);
  const entry = action === 'undo' ? { label, edit: inverse, inverse: edit } : { label, edit, inverse };
  const applied = applyCheckedEdit(standing.header, entry.edit);
  if (!applied.ok) return applied;
  const moved =
    action === 'undo'
      ? { undo: from.below, redo: pushed(redo, ofRevision) }
      : { undo: pushed(undo, ofRevision), redo: from.below };
  const after = { ...standing, ...moved, header: applied.value.header, revision: standing.revision + 1 };
  return success({ entry: { ...entry, ofRevision }, after });
}

/** Writes what the steps changed; a header that is finished now enters the archive in the same transaction. */
function store(tables: Tables, before: Standing, after: Standing, at: ChangeLabels): Standing {
  const { header, revision } = after;
  if (header.state === 'finished') tables.archive.add(header, at.changedAt);
  return { ...after, ...tables.headers.update(before, { header, revision, ...at }) };
}
