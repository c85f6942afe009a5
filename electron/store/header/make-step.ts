/** One step of a header: what it makes of the header, and its row in the journal. */

import { applyCheckedEdit, describeEdit, failure, type Problem, type Result, success } from '../../../core/index.ts';
import { freeze } from '../finished/freeze.ts';
import type { Tables } from '../tables.ts';
import { type HistoryStep, type JournalRow, nextBelow, stepIn } from './journal.ts';
import { readHeader } from './read-header.ts';
import { STEPS_A_SNAPSHOT } from './snapshots.ts';
import type { Standing } from './standing.ts';

/** The header to build on, from memory when that is what is stored. Problems: notFound, damagedHeader. */
export function standingOf(tables: Tables, headerId: string): Result<Standing, Problem> {
  const held = tables.standings.get(headerId);
  // The checksum covers all rows before it, so whoever has the same one has the same document.
  if (held && tables.journal.end(headerId) === held.checksum) return success(held);
  const read = readHeader(tables, headerId);
  if (!read.ok || read.value.damage === null) return read;
  return failure({ kind: 'damagedHeader', headerId, detail: read.value.damage });
}

/** What a step makes of a header, as its row says it. */
export interface Change extends Pick<Standing, 'header' | 'undoNext' | 'redoNext'> {
  readonly action: 'do' | 'undo' | 'redo';
  readonly done: HistoryStep;
  readonly ofRevision: number | null;
}

/** @param label left out: what the edit says of itself */
export function doEdit(
  { header, revision }: Standing,
  edit: HistoryStep['edit'],
  label?: string,
): Result<Change, Problem> {
  const applied = applyCheckedEdit(header, edit);
  if (!applied.ok) return applied;
  const done = { label: label ?? describeEdit(edit, header), edit, inverse: applied.value.inverse };
  const { header: after } = applied.value;
  return success({ action: 'do', header: after, done, ofRevision: null, undoNext: revision + 1, redoNext: null });
}

/** Undo and redo turn back a row of the journal, by its inverse; they are rows themselves, to be turned back in turn. */
export function turnRow(
  { journal }: Tables,
  { header, revision }: Standing,
  { action, row }: { readonly action: 'undo' | 'redo'; readonly row: JournalRow },
): Result<Change, Problem> {
  const { label, edit, inverse } = stepIn(row);
  const applied = applyCheckedEdit(header, inverse);
  if (!applied.ok) return applied;
  const below = nextBelow(journal, header.id, { action, of: row.revision });
  const [undoNext, redoNext] = action === 'undo' ? [below, revision + 1] : [revision + 1, below];
  const done = { label, edit: inverse, inverse: edit };
  return success({ action, header: applied.value.header, done, ofRevision: row.revision, undoNext, redoNext });
}

/** Writes the step down. A header that is finished now enters the archive in the same transaction. */
export function writeStep(
  tables: Tables,
  before: Standing,
  { change, stepId, now }: { readonly change: Change; readonly stepId: string; readonly now: Date },
): Standing {
  const { journal, snapshots } = tables;
  const { header, undoNext, redoNext, done, ofRevision, action } = change;
  const revision = before.revision + 1;
  const checksum = journal.append(header, {
    revision,
    step_id: stepId,
    action,
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
  if (isFinished) freeze(tables, header, now);
  return { header, revision, checksum, undoNext, redoNext, snapshotAt: isDue ? revision : before.snapshotAt };
}
