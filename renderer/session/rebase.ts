/** Making one's own steps again on top of a document that somebody else changed meanwhile. */

import { applyEdit, type Edit, type Header, type Problem, type SingleEdit } from '../../core/index.ts';
import type { DroppedStep, HistoryStep, PendingStep } from './session-state.ts';

export interface Rebased {
  readonly header: Header;
  readonly made: readonly HistoryStep[];
  readonly dropped: readonly DroppedStep[];
}

/** How many there are in the list that the edit adds to; null where it adds to none, or to one that is not there. */
function listLength(header: Header, edit: SingleEdit): number | null {
  if (edit.kind === 'addPrimary') return header.primaries.length;
  if (edit.kind !== 'addPiece') return null;
  return header.primaries.find(({ id }) => id === edit.primaryId)?.pieces.length ?? null;
}

/** What was put at the end of my list is meant to be at the end of theirs, however long that has become. */
function atTheirEnd(edit: SingleEdit, mine: Header, theirs: Header): SingleEdit {
  if (edit.kind !== 'addPiece' && edit.kind !== 'addPrimary') return edit;
  const end = edit.at === listLength(mine, edit) ? listLength(theirs, edit) : null;
  return end === null ? edit : { ...edit, at: end };
}

/** The edits of a batch each see what the ones before them left, in my document and in theirs. */
function onTheirs(edit: Edit, mineBefore: Header, theirsBefore: Header): Edit {
  if (edit.kind !== 'batch') return atTheirEnd(edit, mineBefore, theirsBefore);
  let mine = mineBefore;
  let theirs = theirsBefore;
  const edits: SingleEdit[] = [];
  for (const single of edit.edits) {
    const moved = atTheirEnd(single, mine, theirs);
    const inMine = applyEdit(mine, single);
    const inTheirs = applyEdit(theirs, moved);
    // Edits of a batch may fit only together; then they are tried as they are.
    if (!inMine.ok || !inTheirs.ok) return edit;
    mine = inMine.value.header;
    theirs = inTheirs.value.header;
    edits.push(moved);
  }
  return { ...edit, edits };
}

/**
 * Applies the edits of `steps` to `theirs`, one by one; a step that no longer fits is left out and listed.
 * Undo and redo steps come in as what they did, because their place in the history is gone.
 */
export function rebaseSteps(theirs: Header, steps: readonly PendingStep[]): Rebased {
  let header = theirs;
  const made: HistoryStep[] = [];
  const dropped: DroppedStep[] = [];
  for (const { action, label, edit: asMade, before, isPlan } of steps) {
    if (isPlan) {
      dropped.push({ label: `${action} ${label}`, problems: [{ kind: 'planTurnedAlone' }] });
      continue;
    }
    const edit = onTheirs(asMade, before, header);
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

/**
 * What is left when the host refuses to turn back what our undo or redo wanted: the steps that make something, and the refused
 * ones with the reason. Which undo it was the answer does not say, so all that are not on disk are left out.
 */
export function withoutTurns(
  steps: readonly PendingStep[],
  problems: readonly Problem[],
): { readonly steps: readonly PendingStep[]; readonly refused: readonly DroppedStep[] } {
  const isMade = ({ action }: PendingStep) => action === 'do';
  const refused = steps
    .filter((step) => !isMade(step))
    .map(({ action, label }) => ({ label: `${action} ${label}`, problems }));
  return { steps: steps.filter(isMade), refused };
}

/** Steps made on top of `from`, ready to be sent; each remembers what it was made on. */
export function asPending(from: Header, made: readonly HistoryStep[], newId: () => string): readonly PendingStep[] {
  let before = from;
  return made.map(({ label, edit }) => {
    const step: PendingStep = { stepId: newId(), action: 'do', label, edit, before };
    const applied = applyEdit(before, edit);
    if (applied.ok) before = applied.value.header;
    return step;
  });
}
