/** The moves for a question as it changes: the answer once there is one, or how long it has been looked for. */

import { useCallback, useEffect, useRef, useState } from 'react';
import type { MovesAnswer, MovesQuestion } from './moves-question.ts';
import { sharedClient } from './shared-client.ts';

export type MovesSearch =
  /** Shorter than anyone notices; what was shown before may stay, but is out of date. */
  | { readonly kind: 'begun' }
  | { readonly kind: 'looking'; readonly forMs: number }
  | {
      readonly kind: 'answered';
      readonly question: MovesQuestion;
      readonly answer: MovesAnswer;
      readonly tookMs: number;
    }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'failed'; readonly reason: string }
  /** There are no workers here. */
  | { readonly kind: 'unavailable' };

/** Said from this time on, not before: a flash of it would only disturb. */
const SAY_AFTER_MS = 150;
const SAY_EVERY_MS = 100;

interface Held {
  readonly question: MovesQuestion;
  readonly search: MovesSearch;
}

export interface Moves {
  readonly search: MovesSearch;
  readonly stop: () => void;
  readonly retry: () => void;
}

/** A question that is another object is a newer one; the search for the older one ends there and then. */
export function useMoves(question: MovesQuestion): Moves {
  const client = sharedClient();
  const silence = useRef<() => void>(() => undefined);
  /** Of this question only: another panel may have asked since. */
  const callOff = useRef<() => void>(() => undefined);
  const [held, setHeld] = useState<Held | null>(null);
  const ask = useCallback(() => {
    silence.current();
    if (client === null) return;
    const timers = saying((forMs) => setHeld({ question, search: { kind: 'looking', forMs } }));
    silence.current = timers.stop;
    const end = (search: MovesSearch) => {
      timers.stop();
      setHeld({ question, search });
    };
    callOff.current = client.ask(question, {
      answered: (answer, tookMs) => end({ kind: 'answered', question, answer, tookMs }),
      failed: (reason) => end({ kind: 'failed', reason }),
    });
  }, [client, question]);
  useEffect(ask, [ask]);
  useEffect(
    () => () => {
      silence.current();
      callOff.current();
    },
    [],
  );
  const stop = useCallback(() => {
    silence.current();
    callOff.current();
    setHeld({ question, search: { kind: 'stopped' } });
  }, [question]);
  const retry = useCallback(() => {
    setHeld(null);
    ask();
  }, [ask]);
  if (client === null) return { search: { kind: 'unavailable' }, stop, retry };
  return { search: held?.question === question ? held.search : { kind: 'begun' }, stop, retry };
}

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
