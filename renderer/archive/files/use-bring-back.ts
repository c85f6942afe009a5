/** Brings finished headers back from a file, some lines at a time; stopped, it keeps what came in whole so far. */

import { useCallback, useRef, useState } from 'react';
import type { ResponseOf } from '../../../electron/bridge/contract.ts';
import { useAsk } from '../../host/host-bridge.ts';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { fileLines } from './file-lines.ts';

type Brought = ResponseOf<'bringBackFinished'>['lines'][number];

export interface Tally {
  readonly brought: number;
  /** Of these, such as got another id here. */
  readonly asAnother: number;
  readonly alreadyThere: number;
  readonly inBin: number;
  readonly refused: readonly { readonly line: number; readonly words: string }[];
}

export interface BringingBack {
  readonly fileName: string;
  readonly tally: Tally;
  /** Bytes of the file. */
  readonly done: number;
  readonly of: number;
  /** Null while it goes on. */
  readonly ended: 'all' | 'stopped' | { readonly words: string } | null;
}

const NONE: Tally = { brought: 0, asAnother: 0, alreadyThere: 0, inBin: 0, refused: [] };

/** What the host takes as one line, and what it is asked with at once. */
const LINE_LIMIT = 14_000_000;
const MOST_LINES = 20;
const MOST_LETTERS = 1_000_000;

export function useBringBack() {
  const ask = useAsk();
  const [state, setState] = useState<BringingBack | null>(null);
  const isStopped = useRef(false);
  const begin = useCallback(
    async (file: File) => {
      isStopped.current = false;
      let now: BringingBack = { fileName: file.name, tally: NONE, done: 0, of: file.size, ended: null };
      const show = (more: Partial<BringingBack>) => {
        now = { ...now, ...more };
        setState(now);
      };
      show({});
      let lines: { line: number; text: string }[] = [];
      let letters = 0;
      const send = async (end: number) => {
        if (lines.length > 0) {
          const answer = await ask('bringBackFinished', { lines });
          if (!answer.ok) return show({ ended: { words: answer.words } });
          show({ tally: answer.value.lines.reduce(counted, now.tally) });
        }
        [lines, letters] = [[], 0];
        show({ done: end });
      };
      for await (const { line, text, end } of fileLines(file, LINE_LIMIT)) {
        if (text === null) show({ tally: withRefused(now.tally, { line, words: TOO_LONG }) });
        else lines.push({ line, text });
        letters += text?.length ?? 0;
        if (lines.length < MOST_LINES && letters < MOST_LETTERS) continue;
        await send(end);
        if (now.ended !== null) return now;
        if (isStopped.current) break;
      }
      if (isStopped.current) show({ ended: 'stopped' });
      else {
        await send(file.size);
        if (now.ended === null) show({ ended: 'all' });
      }
      return now;
    },
    [ask],
  );
  const stop = useCallback(() => {
    isStopped.current = true;
  }, []);
  return { state, begin, stop };
}

const TOO_LONG = 'It is longer than a finished header with all its pictures can be.';

function counted(tally: Tally, answer: Brought): Tally {
  switch (answer.kind) {
    case 'brought':
      return { ...tally, brought: tally.brought + 1 };
    case 'broughtAsAnother':
      return { ...tally, brought: tally.brought + 1, asAnother: tally.asAnother + 1 };
    case 'alreadyThere':
      return { ...tally, alreadyThere: tally.alreadyThere + 1 };
    case 'inBin':
      return { ...tally, inBin: tally.inBin + 1 };
    case 'refused':
      return withRefused(tally, { line: answer.line, words: wordsFor([answer.problem]) });
  }
}

function withRefused(tally: Tally, refused: Tally['refused'][number]): Tally {
  return { ...tally, refused: [...tally.refused, refused] };
}
