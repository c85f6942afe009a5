/** The client of the moves worker: only the newest question is answered, and an older search is ended, not waited for. */

import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../core/index.ts';
import { answerQuestion } from '../../../renderer/moves/search/answer-question.ts';
import { MovesClient, type WorkerLike } from '../../../renderer/moves/search/moves-client.ts';
import type {
  AnswerMessage,
  AskedMessage,
  MovesAnswer,
  MovesQuestion,
} from '../../../renderer/moves/search/moves-question.ts';

class FakeWorker implements WorkerLike {
  onmessage: ((event: { readonly data: AnswerMessage }) => void) | null = null;
  onerror: ((event: { readonly message?: string }) => void) | null = null;
  readonly asked: AskedMessage[] = [];
  isEnded = false;

  postMessage(message: AskedMessage): void {
    this.asked.push(message);
  }

  terminate(): void {
    this.isEnded = true;
  }

  answer(outcome = 'noTarget' as const): void {
    const { number } = this.asked.at(-1) ?? { number: -1 };
    this.onmessage?.({ data: { number, answer: { kind: 'header', outcome: { kind: 'none', reason: outcome } } } });
  }
}

function clientWithWorkers() {
  const workers: FakeWorker[] = [];
  const heard: (MovesAnswer | string)[] = [];
  const times: number[] = [];
  let nowMs = 0;
  const client = new MovesClient(
    () => {
      const worker = new FakeWorker();
      workers.push(worker);
      return worker;
    },
    () => nowMs,
  );
  const ask = (question: MovesQuestion = QUESTION) =>
    client.ask(question, {
      answered: (answer, tookMs) => {
        heard.push(answer);
        times.push(tookMs);
      },
      failed: (reason) => heard.push(reason),
    });
  const later = (ms: number) => {
    nowMs += ms;
  };
  return { client, workers, heard, times, ask, later };
}

const QUESTION: MovesQuestion = { kind: 'header', header: demoHeader('h'), options: {} };

/** The workers that were asked and not ended. */
const searching = (workers: readonly FakeWorker[]) =>
  workers.filter(({ asked, isEnded }) => asked.length > 0 && !isEnded);

describe('a question', () => {
  test('is answered with the time that it took, on one worker, with one spare standing by', () => {
    const { workers, heard, times, ask, later } = clientWithWorkers();
    ask();
    later(12);
    workers[0]?.answer();
    expect(heard).toEqual([{ kind: 'header', outcome: { kind: 'none', reason: 'noTarget' } }]);
    expect(times).toEqual([12]);
    expect(workers).toHaveLength(2);
    expect(workers[1]?.asked).toEqual([]);
  });

  test('after an answer goes to the same worker', () => {
    const { workers, ask } = clientWithWorkers();
    ask();
    workers[0]?.answer();
    ask();
    expect(workers[0]?.asked.map(({ number }) => number)).toEqual([1, 2]);
    expect(workers.some(({ isEnded }) => isEnded)).toBe(false);
  });

  test('that is newer ends the search for the older one and goes to the spare at once', () => {
    const { workers, heard, ask } = clientWithWorkers();
    ask();
    ask();
    expect(workers[0]?.isEnded).toBe(true);
    expect(workers[1]?.asked).toHaveLength(1);
    expect(searching(workers)).toHaveLength(1);
    // What was on its way when its worker was ended.
    workers[0]?.answer();
    expect(heard).toEqual([]);
    workers[1]?.answer();
    expect(heard).toHaveLength(1);
  });

  test('of a hundred in a row: one search is on, and one answer is heard', () => {
    const { workers, heard, ask } = clientWithWorkers();
    for (let count = 0; count < 100; count += 1) ask();
    expect(searching(workers)).toHaveLength(1);
    for (const worker of workers) if (worker.asked.length > 0) worker.answer();
    expect(heard).toHaveLength(1);
    expect(workers.filter(({ isEnded }) => !isEnded)).toHaveLength(2);
  });

  test('with the number of an older one is not taken for an answer', () => {
    const { workers, heard, ask } = clientWithWorkers();
    ask();
    workers[0]?.answer();
    ask();
    workers[0]?.onmessage?.({ data: { number: 1, answer: { kind: 'header', outcome: { kind: 'stopped' } } } });
    expect(heard).toHaveLength(1);
  });
});

test('a worker started ahead takes the first question', () => {
  const { client, workers, ask } = clientWithWorkers();
  client.warmUp();
  expect(workers).toHaveLength(1);
  ask();
  expect(workers[0]?.asked).toHaveLength(1);
});

describe('stopping', () => {
  test('ends the search, and no answer is heard', () => {
    const { client, workers, heard, ask } = clientWithWorkers();
    ask();
    client.stop();
    workers[0]?.answer();
    workers[0]?.onerror?.({ message: 'late' });
    expect(workers[0]?.isEnded).toBe(true);
    expect(heard).toEqual([]);
  });

  test('an older search leaves the newer one alone', () => {
    const { workers, heard, ask } = clientWithWorkers();
    const callOff = ask();
    ask();
    callOff();
    expect(searching(workers)).toHaveLength(1);
    workers[1]?.answer();
    expect(heard).toHaveLength(1);
  });

  test('for good ends every worker', () => {
    const { client, workers, ask } = clientWithWorkers();
    ask();
    client.close();
    expect(workers.every(({ isEnded }) => isEnded)).toBe(true);
  });

  test('a worker that breaks is told with its reason, and the next question goes to another', () => {
    const { workers, heard, ask } = clientWithWorkers();
    ask();
    workers[0]?.onerror?.({ message: 'no memory' });
    expect(heard).toEqual(['no memory']);
    ask();
    expect(workers[1]?.asked).toHaveLength(1);
  });
});

test('question and answer survive the way between threads unchanged', () => {
  const question: MovesQuestion = { kind: 'primary', header: demoHeader('h'), primaryId: 'primary-3', options: {} };
  const answer = answerQuestion(structuredClone(question));
  expect(structuredClone(answer)).toEqual(answerQuestion(question));
  expect(answer.kind === 'primary' && answer.outcome.kind).toBe('found');
});
