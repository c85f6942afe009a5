/** The bench's place in the window: the header in hand, or why there is none. */

import { BenchScreen } from '../bench/bench-screen.tsx';
import type { KeptBench } from '../bench/layout/bench-sizes.ts';
import type { OpenedHeader } from '../session/session-state.ts';
import { Button } from '../ui/button.tsx';
import type { OpenHeaderState } from './opening/use-open-header.ts';

interface Props {
  readonly open: OpenHeaderState;
  /** The header that the address names. */
  readonly headerId: string;
  readonly onOpened: (opened: OpenedHeader) => void;
  readonly onList: () => void;
  readonly onRetry: () => void;
  /** Sizes of the parts of the bench and order of the board, kept from one start to the next. */
  readonly kept: KeptBench;
}

export function BenchPlace({ open, headerId, onOpened, onList, onRetry, kept }: Props) {
  if (open.kind === 'open' && open.session.headerId === headerId) {
    return <BenchScreen key={headerId} session={open.session} kept={kept} onCopied={onOpened} />;
  }
  if (open.kind !== 'failed') return <main className="page" id="screen" aria-busy="true" />;
  return (
    <main className="page prose" id="screen">
      <h1>This header could not be opened</h1>
      <p role="alert">{open.words}</p>
      <div className="actions">
        <Button look="main" onPress={onRetry}>
          Try again
        </Button>
        <Button onPress={onList}>Go to the list of headers</Button>
      </div>
    </main>
  );
}
