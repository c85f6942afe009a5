/** Asks the moves worker; only the newest question is ever answered. */

import type { AnswerMessage, AskedMessage, MovesAnswer, MovesQuestion } from './moves-question.ts';

/** The part of a Worker that is used. */
export interface WorkerLike {
  onmessage: ((event: { readonly data: AnswerMessage }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
  postMessage(message: AskedMessage): void;
  terminate(): void;
}

export interface Told {
  readonly tookMs: number;
  /** It is the best so far, and more is looked for. */
  readonly isLooking: boolean;
  /** False: it can look on. */
  readonly isThrough: boolean;
}

export interface AnswerHandlers {
  /** Again whenever it has something better, and whenever it was told to look on, or to stop. */
  readonly answered: (answer: MovesAnswer, told: Told) => void;
  readonly failed: (reason: string) => void;
}

/** What can be said to one search; nothing comes of it once there is a newer question. */
export interface AskedSearch {
  /** Answers with what it has found. */
  readonly stop: () => void;
  readonly lookOn: () => void;
  /** Calls it off: neither of its handlers is called any more. */
  readonly drop: () => void;
}

/** A whole header takes as many searches as it has primaries and targets. */
const LEAST_FOR_HEADER_MS = 10_000;
/** All primaries proposed at once, clear of each other: as long as somebody waits who sees how far it has come. */
const LEAST_FOR_WHOLE_HEADER_MS = 30_000;
/** A whole primary is a larger question than a move, and mostly answered long before. */
const LEAST_FOR_WHOLE_MS = 2_000;
const LEAST_MS: Readonly<Record<MovesQuestion['kind'], number>> = {
  primary: 0,
  header: LEAST_FOR_HEADER_MS,
  whole: LEAST_FOR_WHOLE_MS,
  reach: LEAST_FOR_WHOLE_MS,
  wholeHeader: LEAST_FOR_WHOLE_HEADER_MS,
};
/** Whoever asks for more waits longer for it. */
const MORE_MS = 10_000;

function budgetOf({ kind, budgetMs }: MovesQuestion): number {
  return Math.max(LEAST_MS[kind], budgetMs);
}

/** One worker for the life of the page. It listens while it searches, so a search is called off by telling it so. */
export class MovesClient {
  readonly #start: () => WorkerLike;
  readonly #now: () => number;
  #worker: WorkerLike | null = null;
  #number = 0;

  constructor(start: () => WorkerLike, now: () => number = () => performance.now()) {
    this.#start = start;
    this.#now = now;
  }

  /** Starts the worker ahead of the first question. */
  warmUp(): void {
    this.#worker ??= this.#start();
  }

  ask(question: MovesQuestion, { answered, failed }: AnswerHandlers): AskedSearch {
    this.#number += 1;
    const number = this.#number;
    let askedMs = this.#now();
    const worker = this.#worker ?? this.#start();
    this.#worker = worker;
    const isCurrent = () => number === this.#number && worker === this.#worker;
    worker.onmessage = ({ data }) => {
      if (data.number !== number || !isCurrent()) return;
      answered(data.answer, { tookMs: this.#now() - askedMs, isLooking: data.isLooking, isThrough: data.isThrough });
    };
    worker.onerror = ({ message }) => {
      if (!isCurrent()) return;
      this.#end();
      failed(message ?? 'the search could not be started');
    };
    worker.postMessage({ kind: 'ask', number, question, budgetMs: budgetOf(question) });
    return {
      stop: () => {
        if (isCurrent()) worker.postMessage({ kind: 'stop', number });
      },
      lookOn: () => {
        askedMs = this.#now();
        if (isCurrent()) worker.postMessage({ kind: 'lookOn', number, budgetMs: MORE_MS });
      },
      drop: () => {
        if (isCurrent()) this.drop();
      },
    };
  }

  /** Calls off the search that is on, if any. */
  drop(): void {
    this.#number += 1;
    this.#worker?.postMessage({ kind: 'drop' });
  }

  /** Ends the worker. */
  close(): void {
    this.#number += 1;
    this.#end();
  }

  #end(): void {
    this.#worker?.terminate();
    this.#worker = null;
  }
}
