/** Making one's own steps again on top of a document that somebody else changed meanwhile. */

import { applyEdit } from '../../core/header/apply-edit.ts';
import type { Header } from '../../core/header/header.ts';
import type { DroppedStep, HistoryStep, PendingStep } from './session-state.ts';

export interface Rebased {
  readonly header: Header;
  readonly made: readonly HistoryStep[];
  readonly dropped: readonly DroppedStep[];
}

/**
 * Applies the edits of `steps` to `theirs`, one by one; a step that no longer fits is left out and listed.
 * Undo and redo steps come in as what they did, because their place in the history is gone.
 */
export function rebaseSteps(theirs: Header, steps: readonly PendingStep[]): Rebased {
  let header = theirs;
  const made: HistoryStep[] = [];
  const dropped: DroppedStep[] = [];
  for (const { label, edit } of steps) {
    const applied = applyEdit(header, edit);
    if (!applied.ok) {
      dropped.push({ label, problems: applied.problems });
      continue;
    }
    header = applied.value.header;
    made.push({ label, edit, inverse: applied.value.inverse });
  }
  return { header, made, dropped };
}
