/** Long work that the page asks for piece by piece, sees the progress of, and can stop at any piece without harm. */

import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import { expectedProblem } from '../file/faults.ts';

type State = ReadOnly<ResponseOf<'continueWork'>>;

/** How far it is. `piece` is the next piece of a file that the page puts together. */
export type Going = Omit<Extract<State, { state: 'going' }>, 'state' | 'piece'> & { readonly piece: Uint8Array | null };
/** What came of it. */
export type Done = Extract<State, { state: 'done' }>['done'];

/** Runs up to the next piece whenever it is asked to, which may hand in a piece of a file. */
export type Work = AsyncGenerator<Going, Result<Done, Problem>, Uint8Array | null>;

interface Begun {
  readonly work: Work;
  /** The file that it works on, for what the system may say of it. */
  readonly about: string;
  /** Takes away what it leaves behind when it does not come to its end. */
  readonly drop: () => void;
}

/** Works that were begun and neither ended nor stopped; a page that went away leaves its own behind. */
const MOST = 4;

export function runningWork(newId: () => string) {
  const works = new Map<string, Begun>();
  async function stop(workId: string): Promise<void> {
    const found = works.get(workId);
    works.delete(workId);
    await found?.work.return(failure({ kind: 'workGone' }));
    found?.drop();
  }
  return {
    async begin(begun: Begun): Promise<string> {
      const [oldest] = works.keys();
      if (works.size >= MOST && oldest !== undefined) await stop(oldest);
      const workId = newId();
      works.set(workId, begun);
      return workId;
    },
    /** Problems: workGone, and whatever ends the work; it is over then, and has left nothing behind. */
    async next(workId: string, piece: Uint8Array | null): Promise<Result<State, Problem>> {
      const found = works.get(workId);
      if (!found) return failure({ kind: 'workGone' });
      try {
        const step = await found.work.next(piece);
        if (!step.done) return success(goingState(step.value));
        works.delete(workId);
        if (step.value.ok) return success({ state: 'done', done: step.value.value });
        found.drop();
        return step.value;
      } catch (cause) {
        works.delete(workId);
        found.drop();
        return failure(expectedProblem(cause, found.about));
      }
    },
    stop,
    async stopAll(): Promise<void> {
      for (const workId of works.keys()) await stop(workId);
    },
  };
}

export type RunningWork = ReturnType<typeof runningWork>;

function goingState({ piece, ...going }: Going): State {
  return { state: 'going', ...going, piece: piece === null ? null : Buffer.from(piece).toString('base64') };
}
