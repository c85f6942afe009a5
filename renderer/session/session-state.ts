/** What a screen can see of an open header: the document, its figures, and whether all of it is safe on disk. */

import type { Edit, Header, MatchReport, Problem } from '../../core/index.ts';
import type { ResponseOf } from '../../electron/bridge/contract.ts';

export type OpenedHeader = ResponseOf<'openHeader'>;
export type HistoryStep = OpenedHeader['undo'][number];
export type Draft = NonNullable<OpenedHeader['draft']>;

/** `saved` only after the host acknowledged every step; `reason` is a sentence. */
export type SaveMark =
  | { readonly kind: 'saved' }
  | { readonly kind: 'saving' }
  | { readonly kind: 'notSaved'; readonly reason: string };

/** Another window or process changed this header while steps of ours were still on their way. */
export interface Conflict {
  /** What is on disk; null when the header is there no more. */
  readonly theirs: Header | null;
  /** What this window shows. */
  readonly mine: Header;
  /** Names of our steps that are not on disk, oldest first. */
  readonly mySteps: readonly string[];
}

export type ConflictChoice = 'mineOnTop' | 'theirs' | 'mineAsCopy';

/** A step of ours that could not be made on top of what is on disk. */
export interface DroppedStep {
  readonly label: string;
  readonly problems: readonly Problem[];
}

export interface SessionState {
  readonly header: Header;
  readonly report: MatchReport;
  readonly save: SaveMark;
  /** Names the step that undo takes back; null when there is none. */
  readonly undoLabel: string | null;
  readonly redoLabel: string | null;
  readonly conflict: Conflict | null;
  /** Steps that a settled conflict left out, until they are dismissed. */
  readonly dropped: readonly DroppedStep[];
  /** Text typed but not accepted when the header was last open; taken by the field that it belongs to. */
  readonly draft: Draft | null;
  /** How often an undo or redo here changed the shelf as well: who shows the shelf reads it again. */
  readonly stockMoves: number;
  /** What is damaged on disk; null: nothing. Such a header is shown as far as it is sound. */
  readonly damage: Problem | null;
}

/** Whether the header takes no more steps. */
export function takesNoSteps({ header, damage }: Pick<SessionState, 'header' | 'damage'>): boolean {
  return header.state === 'finished' || damage !== null;
}

/** A step made here and not yet acknowledged. `edit` is what it does to the document, whichever action it is. */
export interface PendingStep {
  readonly stepId: string;
  readonly action: 'do' | 'undo' | 'redo';
  readonly label: string;
  readonly edit: Edit;
  /** A cut plan was turned back: done by edits alone, it would leave the stock where it is. */
  readonly isPlan?: true | undefined;
  /** The document that the step was made on. */
  readonly before: Header;
}
