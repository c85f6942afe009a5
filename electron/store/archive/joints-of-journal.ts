/** How many joints the steps of a header took apart, from its making to where it stands. */

import { applyCheckedEdit, editSchema, type Header, jointsOpened } from '../../../core/index.ts';
import type { Journal } from '../header/journal.ts';
import type { Snapshot } from '../header/snapshots.ts';
import { readCell } from '../rows/row-table.ts';

/**
 * Applies the steps after `first` once more and adds up what each of them opened. A step that was undone counts for nothing, and
 * one that was done again counts once. Null where the steps do not tell, since one of them is damaged. Linear in the journal:
 * some tens of microseconds a step.
 */
export function jointsOfJournal(journal: Pick<Journal, 'all'>, first: Snapshot): number | null {
  const opened = new Map<number, number>();
  let header: Header = first.header;
  for (const { revision, action, of_revision, edit } of journal.all(header.id)) {
    if (revision <= first.revision) continue;
    const read = readCell(editSchema, edit);
    const applied = read && applyCheckedEdit(header, read);
    if (!applied?.ok) return null;
    if (action === 'undo') opened.delete(of_revision ?? -1);
    else opened.set(revision, jointsOpened(header, applied.value.header));
    ({ header } = applied.value);
  }
  return [...opened.values()].reduce((sum, count) => sum + count, 0);
}
