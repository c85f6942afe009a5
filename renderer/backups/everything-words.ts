/** What is said of a backup of everything: how far it is, and what it holds. */

import { describeProblem } from '../../core/index.ts';
import type { DoneWork, Progress, Refusal } from '../host/long-work.ts';
import { countOf, showBytes } from '../ui/words/spoken.ts';

const STAGES: Readonly<Record<Progress['stage'], string>> = {
  copying: 'Copying',
  reading: 'Reading the file',
  proving: 'Proving: every header is read from the file',
  writing: 'Handing the file over',
};

/** For `WorkProgress`; the figure is empty where nothing is known yet. */
export function stageWords({ stage, done, of }: Progress): { readonly words: string; readonly figure: string } {
  const isOfHeaders = stage === 'proving';
  const figure = isOfHeaders
    ? `${done} of ${countOf(of, 'header')}`
    : stage === 'copying'
      ? `${Math.round((100 * done) / Math.max(1, of))} %`
      : `${showBytes(done)} of ${showBytes(of)}`;
  return { words: STAGES[stage], figure: of === 0 ? '' : figure };
}

type Held = Pick<Extract<DoneWork, { kind: 'proven' }>, 'headers' | 'finished' | 'bytes' | 'damaged'>;

/** `12 headers, 4 of them finished, 1.2 MB`. */
export function heldWords({ headers, finished, bytes }: Held): string {
  return `${countOf(headers, 'header')}, ${finished} of them finished, ${showBytes(bytes)}`;
}

/** Null: nothing is damaged. */
export function damageWords({ damaged }: Held): string | null {
  if (damaged.length === 0) return null;
  const [first] = damaged;
  const words = first === undefined ? '' : describeProblem(first.problem);
  const others = damaged.length > 1 ? ` And ${countOf(damaged.length - 1, 'other header')}.` : '';
  return `It holds ${countOf(damaged.length, 'header')} that ${damaged.length === 1 ? 'is' : 'are'} damaged: ${first?.name}. ${words}${others}`;
}

/** Of a file that was handed in, the path that the store gave it tells nobody anything. */
export function fileRefusal({ words, problems }: Refusal): string {
  const isStranger = problems.some(
    (problem) => problem.kind === 'storage' && (problem.fault === 'corrupt' || problem.fault === 'notOurs'),
  );
  if (problems.some((problem) => problem.kind === 'storage' && problem.fault === 'newerVersion'))
    return 'This file was made by a newer version of Evenrun. Nothing was changed; update Evenrun, then restore it.';
  return isStranger
    ? 'This file is not a backup of everything, or it is damaged. Nothing was changed; take another copy of it, or another file.'
    : words;
}
