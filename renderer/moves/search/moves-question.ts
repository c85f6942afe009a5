/** What is asked of the moves worker and what it answers; both cross between threads, so they are plain values. */

import type { Header, HeaderMovesOutcome, MoveOptions, MoveOutcome } from '../../../core/index.ts';

/** Options without functions, which cannot be sent to another thread. */
export type AskedOptions = Pick<MoveOptions, 'maxJoints' | 'clearanceKeptMm' | 'stock'>;

export type MovesQuestion =
  | { readonly kind: 'primary'; readonly header: Header; readonly primaryId: string; readonly options: AskedOptions }
  | { readonly kind: 'header'; readonly header: Header; readonly options: AskedOptions };

export type MovesAnswer =
  | { readonly kind: 'primary'; readonly outcome: MoveOutcome }
  | { readonly kind: 'header'; readonly outcome: HeaderMovesOutcome };

export interface AskedMessage {
  /** Rises with every question; an answer carries the number of its question. */
  readonly number: number;
  /** Null: nothing is wanted any more, drop what you are at. */
  readonly question: MovesQuestion | null;
}

export interface AnswerMessage {
  readonly number: number;
  readonly answer: MovesAnswer;
}
