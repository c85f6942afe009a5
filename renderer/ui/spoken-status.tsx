/** Words for screen readers that change with every keystroke: the latest is said, at most one a second. */

import { useEffect, useState } from 'react';
import { type Paced, paced } from './paced.ts';
import { pageTimers } from './timers.ts';

const GAP_MS = 1_000;

export function SpokenStatus({ text }: { readonly text: string }) {
  const [said, say] = useState(text);
  const [pace] = useState<Paced>(() => paced({ gapMs: GAP_MS, now: () => performance.now(), timers: pageTimers, say }));
  useEffect(() => pace.give(text), [pace, text]);
  useEffect(() => pace.stop, [pace]);
  return (
    <p className="visually-hidden" role="status">
      {spelled(said)}
    </p>
  );
}

/** The inch mark as a word: it is read as a quotation mark, or not at all. */
function spelled(text: string): string {
  return text.replaceAll(/(?<=\d)"/g, ' in');
}
