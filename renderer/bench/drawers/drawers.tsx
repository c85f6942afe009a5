/** The bar under the bench with what opens below it: settings, primaries, and what else can be shown. */

import { memo } from 'react';
import type { HeaderSession } from '../../session/header-session.ts';
import { takesNoSteps } from '../../session/session-state.ts';
import { useSession } from '../../session/use-session.ts';
import { Button } from '../../ui/button.tsx';
import { whyNotFinish } from '../../ui/words/finish-notes.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import type { BenchView, Drawer } from '../bench-view.ts';
import type { BenchActs } from '../use-bench-acts.ts';
import { useStable } from '../use-stable.ts';
import { PrimariesPanel } from './primaries-panel.tsx';
import { SettingsPanel } from './settings-panel.tsx';

const DRAWERS: readonly { readonly id: Drawer; readonly name: string }[] = [
  { id: 'settings', name: 'Settings' },
  { id: 'primaries', name: 'Primaries' },
  { id: 'figures', name: 'Figures' },
  { id: 'view', name: 'View' },
  { id: 'shape', name: 'Shape' },
  { id: 'moves', name: 'Moves' },
];

interface DrawersProps {
  readonly session: HeaderSession;
  readonly view: BenchView;
  readonly acts: BenchActs;
  readonly onFinish: () => void;
}

/** One open at a time, below everything else: none ever covers the entry line. */
export function Drawers({ session, view, acts, onFinish }: DrawersProps) {
  const header = useSession(session, (state) => state.header);
  const report = useSession(session, (state) => state.report);
  const isFrozen = useSession(session, takesNoSteps);
  const addPrimary = useStable(acts.addPrimary);
  return (
    <section className="drawers" aria-label="Header settings and figures">
      <DrawerBar
        drawer={view.drawer}
        hasKeypad={view.hasKeypad}
        primaryName={view.primary?.name ?? null}
        isFrozen={isFrozen}
        notFinish={whyNotFinish(header)}
        change={view.change}
        onAdd={addPrimary}
        onFinish={onFinish}
      />
      {view.drawer === 'settings' && !isFrozen ? (
        <SettingsPanel session={session} header={header} report={report} />
      ) : null}
      {view.drawer === 'primaries' && !isFrozen ? (
        <PrimariesPanel session={session} header={header} acts={acts} />
      ) : null}
    </section>
  );
}

/** Moves are always for the primary in hand, and the button says which. */
function movesName(primaryName: string): string {
  const title = primaryTitle(primaryName);
  return `Moves for ${title === primaryName ? title : `primary ${primaryName}`}`;
}

interface BarProps extends Pick<BenchView, 'drawer' | 'hasKeypad' | 'change'> {
  /** Null: there is none yet, and nothing to move. */
  readonly primaryName: string | null;
  readonly isFrozen: boolean;
  /** Why the header cannot be finished now; null when it can. */
  readonly notFinish: string | null;
  readonly onAdd: () => void;
  readonly onFinish: () => void;
}

const DrawerBar = memo(function DrawerBar(props: BarProps) {
  const { drawer, hasKeypad, primaryName, isFrozen, notFinish, change, onAdd, onFinish } = props;
  const shown = DRAWERS.filter(({ id }) => id === 'figures' || id === 'view' || !isFrozen).filter(
    ({ id }) => id !== 'moves' || primaryName !== null,
  );
  return (
    <div className="drawer-bar">
      {shown.map(({ id, name }) => (
        <Button
          key={id}
          look="quiet"
          aria-expanded={drawer === id}
          onPress={() => change({ drawer: drawer === id ? null : id })}
        >
          {id === 'moves' && primaryName !== null ? movesName(primaryName) : name}
        </Button>
      ))}
      {isFrozen ? null : (
        <>
          <Button look="quiet" aria-expanded={hasKeypad} onPress={() => change({ hasKeypad: !hasKeypad })}>
            Keypad
          </Button>
          <Button look="quiet" onPress={onAdd}>
            Add primary
          </Button>
          <Button look="quiet" isDisabled={notFinish !== null} onPress={onFinish}>
            Finish header
          </Button>
          {notFinish === null ? null : <p className="muted">{notFinish}</p>}
        </>
      )}
    </div>
  );
});
