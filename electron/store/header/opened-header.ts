/** A header as the page opens it, with what can be undone and redone some steps at a time. */

import { failure, type Header, type Problem, type Result, success } from '../../../core/index.ts';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import { planOfStep } from '../cut-plans/plan-of-step.ts';
import { alterationOf } from '../finished/soundness.ts';
import type { Tables } from '../tables.ts';
import { nextBelow, stepIn } from './journal.ts';
import { type ReadHeader, readHeader } from './read-header.ts';

export type OpenedHeader = ReadOnly<ResponseOf<'openHeader'>>;

/** With the steps that can be undone and redone next, and what was typed but not accepted. In a transaction. */
export function openedHeader(tables: Tables, headerId: string): Result<OpenedHeader, Problem> {
  const read = readHeader(tables, headerId);
  if (!read.ok) return read;
  const { header, revision, damage } = read.value;
  const draft = tables.drafts.find(headerId);
  // A finished or damaged header has no way back: work goes on in a copy.
  const isLocked = header.state === 'finished' || damage !== null;
  const undo = historyFrom(tables, { headerId, action: 'undo', from: isLocked ? null : read.value.undoNext });
  const redo = historyFrom(tables, { headerId, action: 'redo', from: isLocked ? null : read.value.redoNext });
  return success({
    header,
    revision,
    undo: undo.steps,
    moreUndo: undo.more,
    redo: redo.steps,
    moreRedo: redo.more,
    draft,
    damage: problemWith(tables, headerId, read.value),
  });
}

/** What keeps a header, as it was read, from being relied on or changed. In the transaction that read it. One in the archive is finished, whatever its document has come to say. */
export function problemWith(tables: Tables, headerId: string, read: ReadHeader): Problem | null {
  const { header, damage } = read;
  const isFinished = header.state === 'finished' || tables.archive.find(headerId) !== null;
  const altered = isFinished ? alterationOf(tables, headerId, read) : null;
  return altered ?? (damage === null ? null : { kind: 'damagedHeader', headerId, detail: damage });
}

/** As opening the header tells it, without opening it. In a transaction. */
export function damageIn(tables: Tables, headerId: string): Problem | null {
  const read = readHeader(tables, headerId);
  return read.ok ? problemWith(tables, headerId, read.value) : (read.problems[0] ?? null);
}

/** A header outside of any other transaction: its rows must fit each other. Damaged, it is read as far as it is sound. */
export function readWhole(tables: Tables, headerId: string): Result<ReadHeader, Problem> {
  return tables.inTransaction(() => readHeader(tables, headerId), 'DEFERRED');
}

/** As `readWhole`, for who goes on without. */
export function headerIn(tables: Tables, headerId: string): Header | null {
  const read = readWhole(tables, headerId);
  return read.ok ? read.value.header : null;
}

export function notFound(id: string) {
  return failure<Problem>({ kind: 'notFound', what: 'header', id });
}

type History = ReadOnly<ResponseOf<'readHistory'>>;

/** So many steps are sent ahead; undoing them takes longer than asking for the next. */
export const HISTORY_WINDOW = 64;

interface Asked {
  readonly headerId: string;
  readonly action: 'undo' | 'redo';
  /** The row to begin with: the next to be turned back, or further down. */
  readonly from: number | null;
}

/** To be called in a transaction. Throws Damaged. */
function historyFrom(tables: Tables, { headerId, action, from }: Asked): History {
  const { journal } = tables;
  const steps: History['steps'][number][] = [];
  let next = from;
  while (next !== null && steps.length < HISTORY_WINDOW) {
    const row = journal.row(headerId, next);
    const { label, edit, inverse } = stepIn(row);
    const plan = planOfStep(tables, row.step_id) === null ? {} : ({ isPlan: true } as const);
    // A redo brings back what its undo took away.
    steps.push({ label, ...(action === 'undo' ? { edit, inverse } : { edit: inverse, inverse: edit }), ...plan });
    next = nextBelow(journal, headerId, { action, of: next });
  }
  return { steps: steps.reverse(), more: next };
}

/** As a page asks for it. In a transaction. Problems: notFound, and invalidRequest for a row that nothing turns back so. */
export function historyAsked(tables: Tables, asked: Asked & { readonly from: number }): Result<History, Problem> {
  const { headerId, action, from } = asked;
  const { journal } = tables;
  if (!journal.newest(headerId)) return failure({ kind: 'notFound', what: 'header', id: headerId });
  const found = journal.find(headerId, from)?.action;
  // An undo is brought back, a step or a redo taken back.
  const turns = action === 'redo' ? ['undo'] : ['do', 'redo'];
  if (found !== undefined && turns.includes(found)) return success(historyFrom(tables, asked));
  return failure({ kind: 'invalidRequest', call: 'readHistory', detail: `no ${action} of step ${from}` });
}
