/** The moves for a question as it changes: the answer once there is one, or how long it has been looked for. */

import { useCallback, useEffect, useRef, useState } from 'react';
import type { AskedSearch } from './moves-client.ts';
import type { MovesAnswer, MovesQuestion } from './moves-question.ts';
import { type ClientUse, sharedClient } from './shared-client.ts';

export interface Answered {
  readonly question: MovesQuestion;
  readonly answer: MovesAnswer;
  readonly tookMs: number;
  /** False: it was left before everything was looked through. */
  readonly isThrough: boolean;
}

export type MovesSearch =
  /** Shorter than anyone notices; what was shown before may stay, but is out of date. */
  | { readonly kind: 'begun' }
  /** With what it has found so far. */
  | { readonly kind: 'looking'; readonly forMs: number; readonly before: Answered | null }
  | ({ readonly kind: 'answered' } & Answered)
  | { readonly kind: 'failed'; readonly reason: string }
  /** There are no workers here. */
  | { readonly kind: 'unavailable' };

/** What was found, be it that more is looked for. */
export function answeredIn(search: MovesSearch): Answered | null {
  if (search.kind === 'answered') return search;
  return search.kind === 'looking' ? search.before : null;
}

/** Said from this time on, not before: a flash of it would only disturb. */
export const SAY_AFTER_MS = 150;
const SAY_EVERY_MS = 100;

interface Held {
  readonly question: MovesQuestion;
  readonly search: MovesSearch;
}

export interface Moves {
  readonly search: MovesSearch;
  /** Keeps what was found. */
  readonly stop: () => void;
  readonly lookOn: () => void;
  readonly retry: () => void;
}

/** A question that is another object is a newer one; the search for the older one of the same use ends there and then. */
export function useMoves(question: MovesQuestion, use: ClientUse = 'panel'): Moves {
  const client = sharedClient(use);
  const silence = useRef<() => void>(() => undefined);
  /** Of this question only: another panel may have asked since. */
  const asked = useRef<AskedSearch | null>(null);
  const [held, setHeld] = useState<Held | null>(null);
  /** What it has found so far, while it looks. */
  const found = useRef<Answered | null>(null);
  const look = useCallback(
    (forMs: number) => setHeld({ question, search: { kind: 'looking', forMs, before: found.current } }),
    [question],
  );
  const say = useCallback(
    (before: Answered | null) => {
      found.current = before;
      silence.current();
      silence.current = saying(look).stop;
    },
    [look],
  );
  const ask = useCallback(() => {
    if (client === null) return;
    say(null);
    const end = (search: MovesSearch) => {
      silence.current();
      setHeld({ question, search });
    };
    asked.current = client.ask(question, {
      answered: (answer, { tookMs, isLooking, isThrough }) => {
        const answered = { question, answer, tookMs, isThrough };
        if (!isLooking) {
          end({ kind: 'answered', ...answered });
          return;
        }
        found.current = answered;
        look(tookMs);
      },
      failed: (reason) => end({ kind: 'failed', reason }),
    });
  }, [client, question, say, look]);
  useEffect(ask, [ask]);
  useEffect(
    () => () => {
      silence.current();
      asked.current?.drop();
    },
    [],
  );
  const stop = useCallback(() => asked.current?.stop(), []);
  const search = held?.question === question ? held.search : BEGUN;
  const lookOn = () => {
    say(answeredIn(search));
    asked.current?.lookOn();
  };
  const retry = useCallback(() => {
    setHeld(null);
    ask();
  }, [ask]);
  return { search: client === null ? UNAVAILABLE : search, stop, lookOn, retry };
}

const BEGUN: MovesSearch = { kind: 'begun' };
const UNAVAILABLE: MovesSearch = { kind: 'unavailable' };

function saying(say: (forMs: number) => void): { readonly stop: () => void } {
  const begun = performance.now();
  let every: ReturnType<typeof setInterval> | undefined;
  const first = setTimeout(() => {
    say(performance.now() - begun);
    every = setInterval(() => say(performance.now() - begun), SAY_EVERY_MS);
  }, SAY_AFTER_MS);
  return {
    stop: () => {
      clearTimeout(first);
      clearInterval(every);
    },
  };
}
