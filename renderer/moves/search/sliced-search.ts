/** Searches in short slices and listens in between: the newest question is answered, and what it replaces is dropped. */

import { type AnswerSearch, searchFor } from './answer-question.ts';
import type { AnswerMessage, AskedMessage } from './moves-question.ts';

/** Between two looks at the mail; a stop is heard that soon. */
const SLICE_MS = 5;
/** What comes first is told at once, what is better than that not more often than anyone can read. */
const TELL_EVERY_MS = 150;

interface Surroundings {
  readonly post: (message: AnswerMessage) => void;
  /** Runs an act once the messages that wait have been heard. */
  readonly afterMail: (act: () => void) => void;
  readonly now: () => number;
}

interface Current {
  readonly number: number;
  readonly search: AnswerSearch;
  /** When the time is up: what was found by then is answered, and the search waits to be told to look on. */
  untilMs: number;
  isWaiting: boolean;
  /** It is left, and what was found is made ready to be answered. */
  isEnding: boolean;
  /** Of the news told last. */
  news: number;
  toldMs: number;
}

export class SlicedSearch {
  readonly #around: Surroundings;
  #current: Current | null = null;
  #isDue = false;

  constructor(around: Surroundings) {
    this.#around = around;
  }

  hear(message: AskedMessage): void {
    const { now } = this.#around;
    if (message.kind === 'ask') {
      const search = searchFor(message.question);
      const untilMs = now() + message.budgetMs;
      const toldMs = Number.NEGATIVE_INFINITY;
      this.#current = { number: message.number, search, untilMs, isWaiting: false, isEnding: false, news: 0, toldMs };
    } else if (message.kind === 'drop') {
      this.#current = null;
    } else if (this.#current?.number === message.number) {
      if (message.kind === 'lookOn') this.#current.untilMs = now() + message.budgetMs;
      this.#current.isEnding = message.kind === 'stop';
      this.#current.isWaiting = false;
      // Most of what was found is ready within one slice, and is answered at once.
      if (message.kind === 'stop') this.#slice();
    }
    this.#goOn();
  }

  #goOn(): void {
    if (this.#isDue || this.#current === null || this.#current.isWaiting) return;
    this.#isDue = true;
    this.#around.afterMail(() => {
      this.#isDue = false;
      this.#slice();
    });
  }

  #slice(): void {
    const current = this.#current;
    if (current === null || current.isWaiting) return;
    const { now } = this.#around;
    const sliceEnds = now() + SLICE_MS;
    const isTimeUp = () => now() > sliceEnds;
    const isThrough = !current.isEnding && current.search.look(isTimeUp);
    if (!isThrough && now() >= current.untilMs) current.isEnding = true;
    if (isThrough || (current.isEnding && current.search.windUp(isTimeUp))) this.#answer(current, isThrough);
    else if (!current.isEnding) this.#tellNews(current);
    this.#goOn();
  }

  #tellNews(current: Current): void {
    const { now, post } = this.#around;
    const { number, search } = current;
    const news = search.news();
    if (news === current.news || now() < current.toldMs + TELL_EVERY_MS) return;
    current.news = news;
    current.toldMs = now();
    post({ number, answer: search.soFar(), isLooking: true, isThrough: false });
  }

  #answer(current: Current, isThrough: boolean): void {
    const { number, search } = current;
    this.#around.post({ number, answer: search.soFar(), isLooking: false, isThrough });
    current.isWaiting = true;
    if (isThrough) this.#current = null;
  }
}
