/** The one door through which a header changes: each step becomes a row of the journal, and nothing else is written. */

import { applyCheckedEdit, describeEdit, failure, type Problem, type Result, success } from '../../../core/index.ts';
import type { RequestOf } from '../../bridge/contract.ts';
import type { Tables } from '../tables.ts';
import { nextBelow } from './history.ts';
import { type HistoryStep, type JournalEntry, stepIn } from './journal.ts';
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
  let after: Standing | null = null;
  const result = tables.inTransaction<{ revision: number }, Problem>(() => {
    const found = standingOf(tables, request.headerId);
    if (!found.ok) return found;
    const standing = found.value;
    const committed = committedBefore(tables, standing, request);
    const expected = request.baseRevision + committed;
    const steps = request.steps.slice(committed);
    if (steps.length === 0) return answer(tables, request, expected);
    const { header, revision } = standing;
    if (header.state === 'finished') return failure({ kind: 'finished', name: header.name });
    if (revision !== expected) return failure({ kind: 'changedElsewhere', expected, found: revision });
    const taken = takeSteps(tables, standing, steps, now);
    if (!taken.ok) return taken;
    after = taken.value;
    return answer(tables, request, after.revision);
  });
  if (result.ok && after !== null) tables.standings.set(after);
  return result;
}

/** The draft sent along is written with the steps; one for a header that is not there never gets here. */
function answer({ drafts }: Tables, { headerId, draft }: Request, revision: number) {
  if (draft !== undefined) drafts.save(headerId, draft);
  return success({ revision });
}

/** How many of the first steps are in the journal already: those of a request sent again follow its base revision. */
function committedBefore(
  { journal }: Tables,
  { revision }: Standing,
  { headerId, baseRevision, steps }: Request,
): number {
  if (revision <= baseRevision) return 0;
  const isThere = ({ stepId }: Step, index: number) => journal.stepIdAt(headerId, baseRevision + 1 + index) === stepId;
  const count = steps.findIndex((step, index) => !isThere(step, index));
  return count < 0 ? steps.length : count;
}

/** The header to build on, from memory when that is what is stored. */
function standingOf(tables: Tables, headerId: string): Result<Standing, Problem> {
  const newest = tables.journal.newest(headerId);
  const held = newest && tables.standings.get(headerId, newest);
  if (held) return success(held);
  const read = readHeader(tables, headerId);
  if (!read.ok || read.value.damage === null) return read;
  return failure({ kind: 'damagedHeader', headerId, detail: read.value.damage });
}

/** Returns the header as the last step leaves it. */
function takeSteps(
  tables: Tables,
  start: Standing,
  steps: readonly Step[],
  changedAt: Date,
): Result<Standing, Problem> {
  let standing = start;
  for (const step of steps) {
    const { header } = standing;
    if (header.state === 'finished') return failure({ kind: 'finished', name: header.name });
    const next = step.action === 'do' ? doStep(standing, step) : turnBack(tables, standing, step.action);
    if (!next.ok) return next;
    const { stepId, action } = step;
    standing = kept(tables, standing, { ...next.value, stepId, action, changedAt });
  }
  return success(standing);
}

type Next = Omit<JournalEntry, 'stepId' | 'action' | 'changedAt'> & { readonly step: HistoryStep };

function doStep(standing: Standing, { edit }: Extract<Step, { action: 'do' }>): Result<Next, Problem> {
  const applied = applyCheckedEdit(standing.header, edit);
  if (!applied.ok) return applied;
  const { header, inverse } = applied.value;
  const revision = standing.revision + 1;
  const step = { label: describeEdit(edit, standing.header), edit, inverse };
  return success({
    header,
    step,
    revision,
    ofRevision: null,
    undoNext: revision,
    redoNext: null,
    before: standing.checksum,
  });
}

/** Undo and redo turn back a row of the journal, by its inverse; they are rows themselves, to be turned back in turn. */
function turnBack(tables: Tables, standing: Standing, action: 'undo' | 'redo'): Result<Next, Problem> {
  const { journal } = tables;
  const headerId = standing.header.id;
  const ofRevision = action === 'undo' ? standing.undoNext : standing.redoNext;
  if (ofRevision === null) return failure({ kind: 'nothingToUndo', action });
  const { label, edit, inverse } = stepIn(journal.row(headerId, ofRevision));
  const applied = applyCheckedEdit(standing.header, inverse);
  if (!applied.ok) return applied;
  const revision = standing.revision + 1;
  const below = nextBelow(journal, headerId, { action, of: ofRevision });
  const stacks = action === 'undo' ? { undoNext: below, redoNext: revision } : { undoNext: revision, redoNext: below };
  const step = { label, edit: inverse, inverse: edit };
  return success({ header: applied.value.header, step, revision, ofRevision, ...stacks, before: standing.checksum });
}

/** A header that is finished now enters the archive in the same transaction. */
function kept({ journal, snapshots, archive }: Tables, { snapshotAt }: Standing, entry: JournalEntry): Standing {
  const { header, revision, undoNext, redoNext, changedAt } = entry;
  const checksum = journal.append(entry);
  const isFinished = header.state === 'finished';
  const isDue = isFinished || revision - snapshotAt >= STEPS_A_SNAPSHOT;
  if (isDue) snapshots.keep({ header, revision, chain: checksum });
  if (isFinished) archive.add(header, changedAt.toISOString());
  return { header, revision, checksum, undoNext, redoNext, snapshotAt: isDue ? revision : snapshotAt };
}
