/**
 * Steps that were not on disk when their page went away, as by a reload while the host does not answer. They are kept in the
 * tab, where they outlive the page, and offered when the header is opened there again.
 */

import type { Edit } from '../../core/index.ts';
import type { HeaderSession } from './header-session.ts';
import type { OpenedHeader, PendingStep } from './session-state.ts';

/** What of the tab is needed: `sessionStorage`. */
export type TabStorage = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** `edit` is what it did to the document, whether it was made, undone or redone. */
export type UnsavedStep = Pick<PendingStep, 'action' | 'label' | 'edit' | 'isPlan'>;

interface Unsaved {
  /** That the host had acknowledged when they were made. */
  readonly revision: number;
  readonly steps: readonly UnsavedStep[];
}

const unsavedKey = (headerId: string) => `evenrun-unsaved:${headerId}`;
const leftKey = (headerId: string) => `evenrun-left:${headerId}`;

/** Keeps what the session has not on disk, or forgets it when there is nothing. Linear in the steps that wait. */
export function keepUnsaved(session: HeaderSession, storage: TabStorage): void {
  const steps = session.pendingSteps.map(({ action, label, edit, isPlan }) => {
    return { action, label: action === 'do' ? label : `${action} ${label}`, edit, isPlan };
  });
  if (steps.length === 0) storage.removeItem(unsavedKey(session.headerId));
  else write(storage, unsavedKey(session.headerId), { revision: session.revision, steps });
}

/**
 * To be called when a header was just opened: sets aside what the last page of this tab left unsaved of it. A step whose
 * acknowledgement alone was lost is on disk, and is left out.
 */
export function setAsideUnsaved(opened: OpenedHeader, storage: TabStorage): void {
  const { header, revision } = opened;
  const unsaved = read(storage, unsavedKey(header.id));
  if (unsaved === null) return;
  storage.removeItem(unsavedKey(header.id));
  const arrived = unsaved.steps.slice(0, Math.max(0, revision - unsaved.revision));
  const isOurs = unsaved.revision + arrived.length === revision && haveLedTo(opened, arrived);
  const steps = [...leftUnsaved(header.id, storage), ...unsaved.steps.slice(isOurs ? arrived.length : 0)];
  if (steps.length > 0) write(storage, leftKey(header.id), { revision, steps });
}

/** Whether what can be undone and redone ends as these steps, and no others, would have left it. */
function haveLedTo(opened: OpenedHeader, steps: readonly UnsavedStep[]): boolean {
  const undo: string[] = [];
  const redo: string[] = [];
  for (const { action, edit } of steps) {
    const [gains, loses] = action === 'undo' ? [redo, undo] : [undo, redo];
    if (action === 'do') redo.length = 0;
    else loses.pop();
    gains.push(JSON.stringify(edit));
  }
  return (
    endsIn(
      opened.undo.map(({ edit }) => edit),
      undo,
    ) &&
    endsIn(
      opened.redo.map(({ inverse }) => inverse),
      redo,
    )
  );
}

function endsIn(edits: readonly Edit[], end: readonly string[]): boolean {
  const last = edits.slice(Math.max(0, edits.length - end.length));
  return last.length === end.length && last.every((edit, at) => JSON.stringify(edit) === end[at]);
}

/** What was set aside of the header and neither made again nor given up; oldest first. */
export function leftUnsaved(headerId: string, storage: TabStorage): readonly UnsavedStep[] {
  return read(storage, leftKey(headerId))?.steps ?? [];
}

/** They were made again, or given up. */
export function settleUnsaved(headerId: string, storage: TabStorage): void {
  storage.removeItem(leftKey(headerId));
}

function write(storage: TabStorage, key: string, unsaved: Unsaved): void {
  try {
    storage.setItem(key, JSON.stringify(unsaved));
  } catch {
    // The tab's few megabytes are full. The steps are still in the page, which goes on trying to save them.
  }
}

/** Null: nothing is there, or nothing of this form. Whether the edits are sound is seen when they are made. */
function read(storage: TabStorage, key: string): Unsaved | null {
  const text = storage.getItem(key);
  if (text === null) return null;
  try {
    const found: unknown = JSON.parse(text);
    return isUnsaved(found) ? found : null;
  } catch {
    return null;
  }
}

function isUnsaved(found: unknown): found is Unsaved {
  if (typeof found !== 'object' || found === null) return false;
  const { revision, steps } = found as { readonly revision?: unknown; readonly steps?: unknown };
  return typeof revision === 'number' && Array.isArray(steps) && steps.every(isStep);
}

function isStep(found: unknown): boolean {
  const { action, label, edit } = (found ?? {}) as Partial<UnsavedStep>;
  return typeof action === 'string' && typeof label === 'string' && typeof edit === 'object' && edit !== null;
}
