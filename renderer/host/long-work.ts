/** Long work of the host, asked for piece by piece: its progress is told, and it can be stopped at any piece. */

import { useCallback, useRef, useState } from 'react';
import type { CallName, ResponseOf } from '../../electron/bridge/contract.ts';
import { base64ToBytes, bytesToBase64 } from './files.ts';
import { type Answer, useAsk } from './host-bridge.ts';

type Going = Extract<ResponseOf<'continueWork'>, { state: 'going' }>;
export type DoneWork = Extract<ResponseOf<'continueWork'>, { state: 'done' }>['done'];

export type Progress = Pick<Going, 'stage' | 'done' | 'of'>;

export type Ended =
  /** `parts`: the file that the page put together; empty where the host wrote it. */
  | { readonly kind: 'done'; readonly done: DoneWork; readonly parts: readonly Blob[] }
  | { readonly kind: 'stopped' }
  /** The person did not say where the file should go. */
  | { readonly kind: 'calledOff' }
  | { readonly kind: 'refused'; readonly answer: Refusal };

export type Refusal = Extract<Answer<CallName>, { ok: false }>;

/** A piece of a file that is handed to the host; with base64 and words around it well below what a request may be. */
const PIECE_BYTES = 4_000_000;

type Begun = Answer<'beginExport'> | Answer<'beginRestore'>;

export interface LongWork {
  /** Null while nothing is under way. */
  readonly progress: Progress | null;
  /** Runs what `begin` began to its end. @param given the file that the host asks for piece by piece */
  readonly run: (begin: () => Promise<Begun>, given?: Blob) => Promise<Ended>;
  /** Takes hold before the next piece; what was begun is taken away. */
  readonly stop: () => void;
}

export function useLongWork(): LongWork {
  const ask = useAsk();
  const [progress, setProgress] = useState<Progress | null>(null);
  const isStopped = useRef(false);
  const run = useCallback<LongWork['run']>(
    async (begin, given) => {
      isStopped.current = false;
      setProgress({ stage: given ? 'reading' : 'writing', done: 0, of: 0 });
      try {
        const begun = await begin();
        if (!begun.ok) return { kind: 'refused', answer: begun };
        const { workId } = begun.value;
        if (workId === null) return { kind: 'calledOff' };
        const parts: Blob[] = [];
        let piece: string | null = null;
        while (!isStopped.current) {
          const answer: Answer<'continueWork'> = await ask('continueWork', { workId, piece });
          if (!answer.ok) return { kind: 'refused', answer };
          const state: ResponseOf<'continueWork'> = answer.value;
          if (state.state === 'done') return { kind: 'done', done: state.done, parts };
          setProgress(state);
          if (state.piece !== null) parts.push(new Blob([base64ToBytes(state.piece)]));
          piece = state.stage === 'reading' && given ? await pieceOf(given, state.done) : null;
        }
        await ask('stopWork', { workId });
        return { kind: 'stopped' };
      } finally {
        setProgress(null);
      }
    },
    [ask],
  );
  const stop = useCallback(() => {
    isStopped.current = true;
  }, []);
  return { progress, run, stop };
}

async function pieceOf(file: Blob, at: number): Promise<string> {
  return bytesToBase64(new Uint8Array(await file.slice(at, at + PIECE_BYTES).arrayBuffer()));
}
