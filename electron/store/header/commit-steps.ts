/** The one door through which a header changes: each step becomes a row of the journal, and nothing else is written. */

import { applyCheckedEdit, describeEdit, failure, type Problem, type Result, success } from '../../../core/index.ts';
import type { RequestOf } from '../../bridge/contract.ts';
import type { Tables } from '../tables.ts';
import { type HistoryStep, nextBelow, stepIn } from './journal.ts';
import { readHeader } from './read-header.ts';
import { STEPS_A_SNAPSHOT } from './snapshots.ts';
import type { Standing } from './standing.ts';

type Request = RequestOf<'commitSteps'>;
type Step = Request['steps'][number];

/**
 * Commits the steps that are not committed yet. Answered only after COMMIT has returned; all steps are in, or none is.
 * A request sent again answers as it did the first time. Problems: notFound, finished, damagedHeader, changedElsewhere,
 * nothingToUndo, and whatever applying the edit refuses.
 */
export function commitSteps(tables: Tables, request: Request, now: Date): Result<{ revision: number }, Problem> {
  const taken = tables.inTransaction(() => {
    const found = standingOf(tables, request.headerId);
    const after = found.ok ? takeSteps(tables, found.value, request, now) : found;
    // The draft sent along is written with the steps; one for a header that is not there never gets here.
    if (after.ok && request.draft !== undefined) tables.drafts.save(request.headerId, request.draft);
    return after;
  });
  if (!taken.ok) return taken;
  const { standing, revision } = taken.value;
  tables.standings.set(standing);
  return success({ revision });
}

/** The header to build on, from memory when that is what is stored. */
function standingOf(tables: Tables, headerId: string): Result<Standing, Problem> {
  const held = tables.standings.get(headerId);
  // The checksum covers all rows before it, so whoever has the same one has the same document.
  if (held && tables.journal.newest(headerId)?.checksum === held.checksum) return success(held);
  const read = readHeader(tables, headerId);
  if (!read.ok || read.value.damage === null) return read;
  return failure({ kind: 'damagedHeader', headerId, detail: read.value.damage });
}

interface Taken {
  /** The header as it stands now. */
  readonly standing: Standing;
  /** To which the steps of the request led. */
  readonly revision: number;
}

function takeSteps(tables: Tables, start: Standing, request: Request, now: Date): Result<Taken, Problem> {
  const committed = committedBefore(tables, start, request);
  const expected = request.baseRevision + committed;
  const steps = request.steps.slice(committed);
  let standing = start;
  for (const step of steps) {
    const { header, revision } = standing;
    if (header.state === 'finished') return failure({ kind: 'finished', name: header.name });
    if (standing === start && revision !== expected)
      return failure({ kind: 'changedElsewhere', expected, found: revision });
    const change = step.action === 'do' ? doStep(standing, step.edit) : turnBack(tables, standing, step.action);
    if (!change.ok) return change;
    standing = kept(tables, standing, { ...change.value, step, now });
  }
  return success({ standing, revision: steps.length === 0 ? expected : standing.revision });
}

/** How many of the first steps are in the journal already: those of a request sent again follow its base revision. */
function committedBefore({ journal }: Tables, { revision }: Standing, request: Request): number {
  const { headerId, baseRevision, steps } = request;
  if (revision <= baseRevision) return 0;
  const isMissing = ({ stepId }: Step, at: number) => journal.find(headerId, baseRevision + 1 + at)?.step_id !== stepId;
  const count = steps.findIndex(isMissing);
  return count < 0 ? steps.length : count;
}

/** What a step makes of a header, as its row says it. */
interface Change extends Pick<Standing, 'header' | 'undoNext' | 'redoNext'> {
  readonly done: HistoryStep;
  readonly ofRevision: number | null;
}

function doStep({ header, revision }: Standing, edit: HistoryStep['edit']): Result<Change, Problem> {
  const applied = applyCheckedEdit(header, edit);
  if (!applied.ok) return applied;
  const done = { label: describeEdit(edit, header), edit, inverse: applied.value.inverse };
  return success({ header: applied.value.header, done, ofRevision: null, undoNext: revision + 1, redoNext: null });
}

/** Undo and redo turn back a row of the journal, by its inverse; they are rows themselves, to be turned back in turn. */
function turnBack({ journal }: Tables, standing: Standing, action: 'undo' | 'redo'): Result<Change, Problem> {
  const { header, revision } = standing;
  const ofRevision = action === 'undo' ? standing.undoNext : standing.redoNext;
  if (ofRevision === null) return failure({ kind: 'nothingToUndo', action });
  const { label, edit, inverse } = stepIn(journal.row(header.id, ofRevision));
  const applied = applyCheckedEdit(header, inverse);
  if (!applied.ok) return applied;
  const below = nextBelow(journal, header.id, { action, of: ofRevision });
  const [undoNext, redoNext] = action === 'undo' ? [below, revision + 1] : [revision + 1, below];
  const done = { label, edit: inverse, inverse: edit };
  return success({ header: applied.value.header, done, ofRevision, undoNext, redoNext });
}

/** Writes the step down. A header that is finished now enters the archive in the same transaction. */
function kept(
  { journal, snapshots, archive }: Tables,
  before: Standing,
  { header, undoNext, redoNext, done, ofRevision, step, now }: Change & { readonly step: Step; readonly now: Date },
): Standing {
  const revision = before.revision + 1;
  const checksum = journal.append(header, {
    revision,
    step_id: step.stepId,
    action: step.action,
    of_revision: ofRevision,
    undo_next: undoNext,
    redo_next: redoNext,
    label: done.label,
    edit: JSON.stringify(done.edit),
    inverse: JSON.stringify(done.inverse),
    changed_at: now.getTime(),
    before: before.checksum,
  });
  const isFinished = header.state === 'finished';
  const isDue = isFinished || revision - before.snapshotAt >= STEPS_A_SNAPSHOT;
  if (isDue) snapshots.keep({ header, revision, chain: checksum });
  if (isFinished) archive.add(header, now.toISOString());
  return { header, revision, checksum, undoNext, redoNext, snapshotAt: isDue ? revision : before.snapshotAt };
}
