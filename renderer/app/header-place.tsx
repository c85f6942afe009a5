/** The place in the window of a screen that shows one header: that header in hand, or why there is none. */

import type { ReactNode } from 'react';
import type { HeaderSession } from '../session/header-session.ts';
import { Button } from '../ui/button.tsx';
import type { OpenHeaderState } from './opening/use-open-header.ts';

interface Props {
  readonly open: OpenHeaderState;
  /** The header that the address names. */
  readonly headerId: string;
  readonly onList: () => void;
  readonly onRetry: () => void;
  /** The screen, once the header is open. */
  readonly show: (session: HeaderSession) => ReactNode;
}

export function HeaderPlace({ open, headerId, onList, onRetry, show }: Props) {
  if (open.kind === 'open' && open.session.headerId === headerId) return show(open.session);
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
