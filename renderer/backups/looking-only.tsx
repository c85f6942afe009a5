/** Says, for as long as it is so, that the headers can only be looked at; and tries again when it is asked to. */

import { useState } from 'react';
import { describeProblem, type Problem } from '../../core/index.ts';
import { useAsk } from '../host/host-bridge.ts';
import { Button } from '../ui/button.tsx';
import { useNotice } from '../ui/notices.tsx';

/** `atStart` is what kept the database from being opened for writing; null: nothing did. */
export function LookingOnly({ atStart }: { readonly atStart: Problem | null }) {
  const ask = useAsk();
  const say = useNotice();
  const [words, setWords] = useState(atStart === null ? null : describeProblem(atStart));
  if (words === null) return null;
  // The page stays as it is: what was typed meanwhile is still held, and is saved once it can be.
  const tryAgain = async () => {
    const answer = await ask('start', {});
    if (!answer.ok) return setWords(answer.words);
    const problem = answer.value.state === 'ready' ? answer.value.cannotWrite : answer.value.problem;
    setWords(problem === null ? null : describeProblem(problem));
    if (problem === null) say({ text: 'Changes are saved again.' });
  };
  return (
    <div className="looking-only">
      <p role="status">
        <strong>You can look at your headers and export them, but nothing can be changed for now.</strong> {words}
      </p>
      <Button onPress={() => void tryAgain()}>Try again</Button>
    </div>
  );
}
