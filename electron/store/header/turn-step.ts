/** Turns back one step of a header, wherever in its history it is. */

import { isDeepStrictEqual } from 'node:util';
import { applyCheckedEdit, failure, type Header, type Problem, type Result, success } from '../../../core/index.ts';
import type { Tables } from '../tables.ts';
import { type JournalRow, stepIn } from './journal.ts';
import { type Change, doEdit, standingOf, turnRow, writeStep } from './make-step.ts';
import type { Standing } from './standing.ts';

interface Asked {
  readonly headerId: string;
  /** Which step is turned back. */
  readonly stepId: string;
  /** Id of the step that does so. */
  readonly asStep: string;
}

/**
 * An undo or a redo where the step is what they come to next; otherwise a step of its own that does the opposite, which asks that
 * what the step changed is as it left it. Nothing of the stock book is touched. In a transaction of whoever calls.
 *
 * Problems: notFound, finished, damagedHeader, piecesChangedSince.
 */
export function turnStep(tables: Tables, { headerId, stepId, asStep }: Asked, now: Date): Result<null, Problem> {
  const found = standingOf(tables, headerId);
  if (!found.ok) return found;
  const { header } = found.value;
  if (header.state === 'finished') return failure({ kind: 'finished', name: header.name });
  const row = tables.journal.ofStep(headerId, stepId);
  const change = row === null ? changedSince(header) : turned(tables, found.value, row);
  if (!change.ok) return change;
  // Not remembered in memory: whoever needs the header next finds that its last row is another, and reads it.
  writeStep(tables, found.value, { change: change.value, stepId: asStep, now });
  return success(null);
}

function turned(tables: Tables, standing: Standing, row: JournalRow): Result<Change, Problem> {
  if (row.revision === standing.undoNext) return turnRow(tables, standing, { action: 'undo', row });
  if (row.revision === standing.redoNext) return turnRow(tables, standing, { action: 'redo', row });
  const { edit, inverse, label } = stepIn(row);
  const again = applyCheckedEdit(standing.header, edit);
  const isAsLeft = again.ok && isDeepStrictEqual(again.value.header, standing.header);
  return isAsLeft ? doEdit(standing, inverse, `taken back: ${label}`) : changedSince(standing.header);
}

function changedSince({ name }: Header): Result<never, Problem> {
  return failure({ kind: 'piecesChangedSince', header: name });
}
