/** Searches in short slices and listens in between: the newest question is answered, and what it replaces is dropped. */

import { type AnswerSearch, searchFor } from './answer-question.ts';
import type { AnswerMessage, AskedMessage } from './moves-question.ts';

/** Between two looks at the mail; a stop is heard that soon. */
const SLICE_MS = 8;

interface Surroundings {
  readonly post: (message: AnswerMessage) => void;
  /** Runs an act once the messages that wait have been heard. */
  readonly afterMail: (act: () => void) => void;
  readonly now: () => number;
}

export class SlicedSearch {
  readonly #around: Surroundings;
  #current: { readonly number: number; readonly search: AnswerSearch } | null = null;
  #isWaiting = false;

  constructor(around: Surroundings) {
    this.#around = around;
  }

  hear(message: AskedMessage): void {
    this.#current = message.question === null ? null : { number: message.number, search: searchFor(message.question) };
    this.#goOn();
  }

  #goOn(): void {
    if (this.#isWaiting || this.#current === null) return;
    this.#isWaiting = true;
    this.#around.afterMail(() => {
      this.#isWaiting = false;
      this.#slice();
    });
  }

  #slice(): void {
    if (this.#current === null) return;
    const { number, search } = this.#current;
    const { now, post } = this.#around;
    const begun = now();
    const answer = search.look(() => now() - begun > SLICE_MS);
    if (answer !== null) {
      this.#current = null;
      post({ number, answer });
    }
    this.#goOn();
  }
}
