/** What can be undone and redone, some steps at a time: each row of the journal says what was next after it. */

import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import type { Journal } from './journal.ts';
import { stepIn } from './journal.ts';

export type History = ReadOnly<ResponseOf<'readHistory'>>;

/** So many steps are sent ahead; undoing them takes longer than asking for the next. */
export const HISTORY_WINDOW = 64;

interface Asked {
  readonly headerId: string;
  readonly action: 'undo' | 'redo';
  /** The row to begin with: the next to be turned back, or further down. */
  readonly from: number | null;
}

/** To be called in a transaction. Throws DamagedRow. */
export function historyFrom(journal: Journal, { headerId, action, from }: Asked): History {
  const steps: History['steps'][number][] = [];
  let next = from;
  while (next !== null && steps.length < HISTORY_WINDOW) {
    const { label, edit, inverse } = stepIn(journal.row(headerId, next));
    // A redo brings back what its undo took away.
    steps.push(action === 'undo' ? { label, edit, inverse } : { label, edit: inverse, inverse: edit });
    next = nextBelow(journal, headerId, { action, of: next });
  }
  return { steps: steps.reverse(), more: next };
}

/** As a page asks for it. In a transaction. Problems: notFound, and invalidRequest for a row that nothing turns back so. */
export function historyAsked(journal: Journal, asked: Asked & { readonly from: number }): Result<History, Problem> {
  const { headerId, action, from } = asked;
  if (!journal.newest(headerId)) return failure({ kind: 'notFound', what: 'header', id: headerId });
  const found = journal.actionAt(headerId, from);
  // An undo is brought back, a step or a redo taken back.
  const turns = action === 'redo' ? ['undo'] : ['do', 'redo'];
  if (found !== undefined && turns.includes(found)) return success(historyFrom(journal, asked));
  return failure({ kind: 'invalidRequest', call: 'readHistory', detail: `no ${action} of step ${from}` });
}

/** What comes next once the row `of` is turned back: what came next before it was made. */
export function nextBelow(
  journal: Journal,
  headerId: string,
  { action, of }: { readonly action: 'undo' | 'redo'; readonly of: number },
): number | null {
  const before = journal.row(headerId, of - 1);
  return action === 'undo' ? before.undo_next : before.redo_next;
}
