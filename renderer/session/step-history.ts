/** The steps that undo and redo walk along: those at hand, and where the host goes on with those before them. */

import type { ResponseOf } from '../../electron/bridge/contract.ts';
import type { HistoryStep, OpenedHeader, SessionState } from './session-state.ts';

type Action = 'undo' | 'redo';
type Start = Pick<OpenedHeader, 'undo' | 'moreUndo' | 'redo' | 'moreRedo'>;

/** When so few are left at hand, more are asked for: undoing these takes longer than the answer. */
const FEW = 40;

/** What to ask the host for. */
export interface WantedHistory {
  readonly action: Action;
  readonly from: number;
}

export class StepHistory {
  /** Last steps last. */
  readonly #steps: Readonly<Record<Action, HistoryStep[]>>;
  /** Where the host goes on; null: all are at hand. */
  readonly #more: Record<Action, number | null>;

  constructor({ undo, moreUndo, redo, moreRedo }: Start) {
    this.#steps = { undo: [...undo], redo: [...redo] };
    this.#more = { undo: moreUndo, redo: moreRedo };
  }

  /** What the next undo and the next redo are of. */
  get labels(): Pick<SessionState, 'undoLabel' | 'redoLabel'> {
    const { undo, redo } = this.#steps;
    return { undoLabel: undo.at(-1)?.label ?? null, redoLabel: redo.at(-1)?.label ?? null };
  }

  /** A new step; what had been taken back cannot be made again after it. */
  add(step: HistoryStep): void {
    this.#steps.undo.push(step);
    this.#steps.redo.length = 0;
    this.#more.redo = null;
  }

  /** The step to take back, or to make again, now; null when there is none. */
  pass(action: Action): HistoryStep | null {
    const step = this.#steps[action].pop();
    if (step === undefined) return null;
    this.#steps[action === 'undo' ? 'redo' : 'undo'].push(step);
    return step;
  }

  /** Null: enough is at hand. */
  wanted(): WantedHistory | null {
    for (const action of ['undo', 'redo'] as const) {
      const from = this.#more[action];
      if (from !== null && this.#steps[action].length < FEW) return { action, from };
    }
    return null;
  }

  /** The answer to what was wanted, unless that has become meaningless meanwhile. */
  extend({ action, from }: WantedHistory, { steps, more }: ResponseOf<'readHistory'>): void {
    if (this.#more[action] !== from) return;
    this.#steps[action].unshift(...steps);
    this.#more[action] = more;
  }
}
