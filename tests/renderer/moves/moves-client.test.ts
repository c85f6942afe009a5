/** The client of the moves worker: only the newest question is answered, and an older search is dropped, not waited for. */

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
import { SlicedSearch } from '../../../renderer/moves/search/sliced-search.ts';

class FakeWorker implements WorkerLike {
  onmessage: ((event: { readonly data: AnswerMessage }) => void) | null = null;
  onerror: ((event: { readonly message?: string }) => void) | null = null;
  readonly asked: AskedMessage[] = [];
  isEnded = false;

  postMessage(message: AskedMessage): void {
    this.asked.push(message);
  }

  lastNumber(): number {
    const asked = this.asked.findLast((message) => message.kind === 'ask');
    return asked?.kind === 'ask' ? asked.number : -1;
  }

  terminate(): void {
    this.isEnded = true;
  }

  /** Answers the newest question, or that of a number. */
  answer(outcome = 'noTarget' as const, number = this.lastNumber()): void {
    this.onmessage?.({
      data: {
        number,
        isLooking: false,
        isThrough: true,
        answer: { kind: 'header', outcome: { kind: 'none', reason: outcome } },
      },
    });
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
      answered: (answer, { tookMs }) => {
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

const QUESTION: MovesQuestion = { kind: 'header', header: demoHeader('h'), options: {}, budgetMs: 300 };

describe('a question', () => {
  test('is answered with the time that it took, on one worker', () => {
    const { workers, heard, times, ask, later } = clientWithWorkers();
    ask();
    later(12);
    workers[0]?.answer();
    expect(heard).toEqual([{ kind: 'header', outcome: { kind: 'none', reason: 'noTarget' } }]);
    expect(times).toEqual([12]);
    expect(workers).toHaveLength(1);
  });

  test('has the time that it was given; a whole header has ten seconds at least, or thirty where all of it is proposed', () => {
    const { client, workers } = clientWithWorkers();
    const nobody = { answered: () => undefined, failed: () => undefined };
    const one: MovesQuestion = { ...QUESTION, kind: 'primary', primaryId: 'primary-3', budgetMs: 1_000 };
    client.ask(one, nobody);
    client.ask(QUESTION, nobody);
    client.ask({ ...QUESTION, budgetMs: 30_000 }, nobody);
    client.ask({ ...QUESTION, kind: 'wholeHeader' }, nobody);
    const given = [1_000, 10_000, 30_000, 30_000].map((budgetMs) => ({ budgetMs }));
    expect(workers[0]?.asked).toMatchObject(given);
  });

  test('after an answer goes to the same worker', () => {
    const { workers, ask } = clientWithWorkers();
    ask();
    workers[0]?.answer();
    ask();
    expect(workers[0]?.asked).toMatchObject([{ number: 1 }, { number: 2 }]);
    expect(workers.some(({ isEnded }) => isEnded)).toBe(false);
  });

  test('that is newer takes the place of the older one, whose answer is not heard', () => {
    const { workers, heard, ask } = clientWithWorkers();
    ask();
    ask();
    expect(workers).toHaveLength(1);
    workers[0]?.answer('noTarget', 1);
    expect(heard).toEqual([]);
    workers[0]?.answer();
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
  test('tells the worker, which answers with what it has', () => {
    const { workers, heard, ask } = clientWithWorkers();
    const asked = ask();
    asked.stop();
    expect(workers[0]?.asked.at(-1)).toEqual({ kind: 'stop', number: 1 });
    workers[0]?.answer();
    expect(heard).toHaveLength(1);
    asked.lookOn();
    expect(workers[0]?.asked.at(-1)).toMatchObject({ kind: 'lookOn', number: 1 });
    workers[0]?.answer();
    expect(heard).toHaveLength(2);
  });

  test('for whoever left: no answer is heard', () => {
    const { workers, heard, ask } = clientWithWorkers();
    ask().drop();
    expect(workers[0]?.asked.at(-1)).toEqual({ kind: 'drop' });
    workers[0]?.answer();
    workers[0]?.onerror?.({ message: 'late' });
    expect(heard).toEqual([]);
  });

  test('an older search leaves the newer one alone', () => {
    const { workers, heard, ask } = clientWithWorkers();
    const older = ask();
    ask();
    for (const act of [older.stop, older.lookOn, older.drop]) act();
    expect(workers[0]?.asked.map(({ kind }) => kind)).toEqual(['ask', 'ask']);
    workers[0]?.answer();
    expect(heard).toHaveLength(1);
  });

  test('for good ends the worker', () => {
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

/** A sliced search whose clock moves a millisecond at every look at it, and whose mail is heard when the test says so. */
function slicedSearch() {
  const posted: AnswerMessage[] = [];
  const waiting: (() => void)[] = [];
  let nowMs = 0;
  const search = new SlicedSearch({
    post: (message) => posted.push(message),
    afterMail: (act) => waiting.push(act),
    now: () => {
      nowMs += 1;
      return nowMs;
    },
  });
  const slice = () => waiting.shift()?.();
  const slices = () => {
    let count = 0;
    while (waiting.length > 0) {
      slice();
      count += 1;
    }
    return count;
  };
  return { search, posted, waiting, slice, slices };
}

describe('a search in slices', () => {
  const question: MovesQuestion = {
    kind: 'primary',
    header: demoHeader('h'),
    primaryId: 'primary-3',
    options: {},
    budgetMs: 300,
  };
  const asking = (number: number, budgetMs = 1e6, asked: MovesQuestion = question) =>
    ({ kind: 'ask', number, question: asked, budgetMs }) as const;

  test('comes to the answer of one at once, in many slices', () => {
    const { search, posted, slices } = slicedSearch();
    search.hear(asking(7));
    expect(slices()).toBeGreaterThan(5);
    expect(posted).toEqual([{ number: 7, answer: answerQuestion(question), isLooking: false, isThrough: true }]);
  });

  test('is dropped for a newer question, which alone is answered', () => {
    const { search, posted, waiting, slice, slices } = slicedSearch();
    search.hear(asking(1));
    slice();
    search.hear(asking(2, 1e6, QUESTION));
    search.hear(asking(3));
    expect(waiting).toHaveLength(1);
    slices();
    expect(posted.map(({ number }) => number)).toEqual([3]);
  });

  test('ends at the next slice when nothing is wanted any more', () => {
    const { search, posted, slice, slices } = slicedSearch();
    search.hear(asking(1));
    slice();
    search.hear({ kind: 'drop' });
    expect(slices()).toBe(1);
    expect(posted).toEqual([]);
  });

  test('answers with what it has when its time is up, and looks on when it is told to', () => {
    const { search, posted, slices } = slicedSearch();
    search.hear(asking(1, 20));
    slices();
    expect(posted).toMatchObject([{ number: 1, isThrough: false }]);
    search.hear({ kind: 'lookOn', number: 1, budgetMs: 1e6 });
    slices();
    expect(posted[1]).toEqual({ number: 1, answer: answerQuestion(question), isLooking: false, isThrough: true });
  });

  test('shows the first idea before it is through, better ones as they come, and the best of all last', () => {
    const { search, posted, slices } = slicedSearch();
    const header = demoHeader('h');
    const primaries = header.primaries.map((one) => (one.id === 'primary-3' ? { ...one, pieces: [] } : one));
    const whole: MovesQuestion = {
      kind: 'whole',
      header: { ...header, primaries },
      primaryId: 'primary-3',
      options: {},
      budgetMs: 300,
    };
    search.hear(asking(4, 1e6, whole));
    const count = slices();
    expect(posted.length).toBeGreaterThan(1);
    expect(posted.length).toBeLessThan(count);
    for (const { answer, isLooking, isThrough } of posted.slice(0, -1)) {
      expect({ isLooking, isThrough }).toEqual({ isLooking: true, isThrough: false });
      expect(answer).toMatchObject({ kind: 'whole', outcome: { kind: 'found', isExhausted: false } });
    }
    expect(posted.at(-1)).toEqual({ number: 4, answer: answerQuestion(whole), isLooking: false, isThrough: true });
  });

  test('looks no further when it is stopped, answers once what it has is ready, and keeps its place', () => {
    const { search, posted, slice, slices } = slicedSearch();
    search.hear(asking(1));
    slice();
    // What was found in one slice, without stopping: it is answered when the time is up.
    const twin = slicedSearch();
    twin.search.hear(asking(1, 1));
    twin.slices();
    search.hear({ kind: 'stop', number: 1 });
    slices();
    expect(posted).toEqual([{ ...twin.posted[0], isThrough: false }]);
    search.hear({ kind: 'lookOn', number: 1, budgetMs: 1e6 });
    slices();
    expect(posted.at(-1)).toMatchObject({ isThrough: true });
  });

  test('that is stopped at once is answered at once where nothing has to be made ready', () => {
    const { search, posted, slice, slices } = slicedSearch();
    search.hear(asking(1, 1e6, QUESTION));
    slice();
    search.hear({ kind: 'stop', number: 1 });
    expect(posted).toMatchObject([{ number: 1, isLooking: false, isThrough: false }]);
    slices();
    expect(posted).toHaveLength(1);
  });

  test('hears a newer question while it makes its answer ready', () => {
    const { search, posted, slice, slices } = slicedSearch();
    search.hear(asking(1));
    for (let count = 0; count < 40; count += 1) slice();
    search.hear({ kind: 'stop', number: 1 });
    expect(posted).toEqual([]);
    search.hear(asking(2));
    slices();
    expect(posted.map(({ number }) => number)).toEqual([2]);
  });
});

test('question and answer survive the way between threads unchanged', () => {
  const question: MovesQuestion = {
    kind: 'primary',
    header: demoHeader('h'),
    primaryId: 'primary-3',
    options: {},
    budgetMs: 300,
  };
  const answer = answerQuestion(structuredClone(question));
  expect(structuredClone(answer)).toEqual(answerQuestion(question));
  expect(answer.kind === 'primary' && answer.outcome.kind).toBe('found');
});
