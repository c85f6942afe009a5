/** Offers the steps that were not saved when the page was loaded again. */

import { useState } from 'react';
import type { HeaderSession } from '../../session/header-session.ts';
import { leftUnsaved, settleUnsaved, type UnsavedStep } from '../../session/unsaved-steps.ts';
import { Button } from '../../ui/button.tsx';
import { FigureText } from '../../ui/figure-text.tsx';
import { useNotice } from '../../ui/notices.tsx';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { countOf } from '../../ui/words/spoken.ts';

/** Named one by one; more are counted. */
const MOST_NAMED = 3;

export function UnsavedNote({ session }: { readonly session: HeaderSession }) {
  const [steps, setSteps] = useState(() => leftUnsaved(session.headerId, window.sessionStorage));
  const say = useNotice();
  if (steps.length === 0) return null;
  const settle = () => {
    settleUnsaved(session.headerId, window.sessionStorage);
    setSteps([]);
  };
  const makeAgain = () => {
    const refused = steps.flatMap(({ label, edit, isPlan }) => {
      if (isPlan) return [`${label}: ${wordsFor([{ kind: 'planTurnedAlone' }])}`];
      const done = session.apply(edit);
      return done.ok ? [] : [`${label}: ${wordsFor(done.problems)}`];
    });
    settle();
    if (refused.length > 0) say({ text: `Left out: ${refused.join(' ')}`, tone: 'trouble' });
  };
  return (
    <div className="frozen" role="alert">
      <p>
        <FigureText text={unsavedWords(steps)} />
      </p>
      <Button onPress={makeAgain}>{steps.length === 1 ? 'Enter it again' : 'Enter them again'}</Button>
      <Button look="quiet" onPress={settle}>
        Discard
      </Button>
    </div>
  );
}

/** `2 steps were not saved before this page was loaded again: add straight 1 1/8" to primary 1, add bend 45° to primary 1.` */
function unsavedWords(steps: readonly UnsavedStep[]): string {
  const were = `${countOf(steps.length, 'step')} ${steps.length === 1 ? 'was' : 'were'}`;
  const named = steps.slice(0, MOST_NAMED).map(({ label }) => label);
  const rest = steps.length > MOST_NAMED ? [`${steps.length - MOST_NAMED} more`] : [];
  return `${were} not saved before this page was loaded again: ${[...named, ...rest].join(', ')}.`;
}
