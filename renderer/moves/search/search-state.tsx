/** What the search is doing, in words: looking and how long, not through, failed, or not possible here. */

import type { ReactNode } from 'react';
import { Button } from '../../ui/button.tsx';
import { type Moves, SAY_AFTER_MS } from './use-moves.ts';

const seconds = new Intl.NumberFormat('en', { minimumFractionDigits: 1, maximumFractionDigits: 1 });

/** Nothing while it has only just begun, and nothing once everything was looked through. */
export function SearchState({ moves }: { readonly moves: Moves }) {
  const { search, stop, lookOn, retry } = moves;
  switch (search.kind) {
    case 'begun':
      return null;
    case 'answered':
      return search.isThrough ? null : (
        <Line words="Stopped at the time limit." act={{ name: 'Search on', run: lookOn }} />
      );
    case 'looking':
      return search.forMs < SAY_AFTER_MS ? null : (
        <Line
          words={
            <>
              Searching … <span aria-hidden="true">{seconds.format(search.forMs / 1000)} s</span>
            </>
          }
          act={{ name: 'Stop', run: stop }}
        />
      );
    case 'failed':
      return <Line words={`The search failed: ${search.reason}.`} act={{ name: 'Search again', run: retry }} />;
    case 'unavailable':
      return <Line words="Moves cannot run in this browser." />;
  }
}

interface LineProps {
  readonly words: ReactNode;
  readonly act?: { readonly name: string; readonly run: () => void };
}

function Line({ words, act }: LineProps) {
  return (
    <div className="moves-state">
      <p role="status">{words}</p>
      {act === undefined ? null : (
        <Button look="quiet" onPress={act.run}>
          {act.name}
        </Button>
      )}
    </div>
  );
}
