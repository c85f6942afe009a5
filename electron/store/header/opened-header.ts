/** A header as the page opens it. */

import { failure, type Header, type Problem, type Result, success } from '../../../core/index.ts';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import type { Tables } from '../tables.ts';
import { historyFrom } from './history.ts';
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
  const undo = historyFrom(tables.journal, { headerId, action: 'undo', from: isLocked ? null : read.value.undoNext });
  const redo = historyFrom(tables.journal, { headerId, action: 'redo', from: isLocked ? null : read.value.redoNext });
  return success({
    header,
    revision,
    undo: undo.steps,
    moreUndo: undo.more,
    redo: redo.steps,
    moreRedo: redo.more,
    draft,
    damage: damage === null ? null : { kind: 'damagedHeader', headerId, detail: damage },
  });
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
