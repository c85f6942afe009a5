/** Asks the moves worker; only the newest question is ever answered. */

import type { AnswerMessage, AskedMessage, MovesAnswer, MovesQuestion } from './moves-question.ts';

/** The part of a Worker that is used. */
export interface WorkerLike {
  onmessage: ((event: { readonly data: AnswerMessage }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
  postMessage(message: AskedMessage): void;
  terminate(): void;
}

export interface AnswerHandlers {
  readonly answered: (answer: MovesAnswer, tookMs: number) => void;
  readonly failed: (reason: string) => void;
}

/** One worker for the life of the page. It listens while it searches, so a search is called off by telling it so. */
export class MovesClient {
  readonly #start: () => WorkerLike;
  readonly #now: () => number;
  #worker: WorkerLike | null = null;
  #isBusy = false;
  #number = 0;

  constructor(start: () => WorkerLike, now: () => number = () => performance.now()) {
    this.#start = start;
    this.#now = now;
  }

  /** Starts the worker ahead of the first question. */
  warmUp(): void {
    this.#worker ??= this.#start();
  }

  /** Returns what calls off this very search; it does nothing once there is an answer or a newer question. */
  ask(question: MovesQuestion, { answered, failed }: AnswerHandlers): () => void {
    this.#number += 1;
    const number = this.#number;
    const asked = this.#now();
    const worker = this.#worker ?? this.#start();
    this.#worker = worker;
    this.#isBusy = true;
    worker.onmessage = ({ data }) => {
      if (data.number !== this.#number || worker !== this.#worker) return;
      this.#isBusy = false;
      answered(data.answer, this.#now() - asked);
    };
    worker.onerror = ({ message }) => {
      if (number !== this.#number || worker !== this.#worker) return;
      this.#drop();
      failed(message ?? 'the search could not be started');
    };
    worker.postMessage({ number, question });
    return () => {
      if (number === this.#number) this.stop();
    };
  }

  /** Calls off the search that is on, if any: neither of its handlers is called any more. */
  stop(): void {
    if (!this.#isBusy) return;
    this.#isBusy = false;
    this.#number += 1;
    this.#worker?.postMessage({ number: this.#number, question: null });
  }

  /** Ends the worker. */
  close(): void {
    this.#number += 1;
    this.#drop();
  }

  #drop(): void {
    this.#worker?.terminate();
    this.#worker = null;
    this.#isBusy = false;
  }
}
