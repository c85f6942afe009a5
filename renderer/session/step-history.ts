/** The steps that undo and redo walk along. */

import type { HistoryStep, SessionState } from './session-state.ts';

export class StepHistory {
  readonly #undo: HistoryStep[];
  readonly #redo: HistoryStep[];

  /** Last steps last. */
  constructor(undo: readonly HistoryStep[], redo: readonly HistoryStep[]) {
    this.#undo = [...undo];
    this.#redo = [...redo];
  }

  /** What the next undo and the next redo are of. */
  get labels(): Pick<SessionState, 'undoLabel' | 'redoLabel'> {
    return { undoLabel: this.#undo.at(-1)?.label ?? null, redoLabel: this.#redo.at(-1)?.label ?? null };
  }

  /** A new step; what had been taken back cannot be made again after it. */
  add(step: HistoryStep): void {
    this.#undo.push(step);
    this.#redo.length = 0;
  }

  /** The step to take back now; null when there is none. */
  back(): HistoryStep | null {
    return passOn(this.#undo, this.#redo);
  }

  /** The step to make again now; null when there is none. */
  again(): HistoryStep | null {
    return passOn(this.#redo, this.#undo);
  }
}

function passOn(from: HistoryStep[], to: HistoryStep[]): HistoryStep | null {
  const step = from.pop();
  if (step === undefined) return null;
  to.push(step);
  return step;
}
