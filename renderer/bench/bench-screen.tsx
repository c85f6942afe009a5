/** The bench: one header, with the board of its primaries, the stage, one panel, and the pieces of the primary in hand. */

import { type CSSProperties, memo, useRef } from 'react';
import type { HeaderSession } from '../session/header-session.ts';
import type { OpenedHeader } from '../session/session-state.ts';
import { useSession } from '../session/use-session.ts';
import './bench.css';
import './grid/piece-grid.css';
import './entry/entry.css';
import './panels/panels.css';
import './layout/layout.css';
import { EmptyBench } from './empty-bench.tsx';
import type { KeptBench } from './layout/bench-sizes.ts';
import { Places } from './layout/places.tsx';
import { Conflicts } from './notes/conflict-dialog.tsx';
import { DamageNote } from './notes/damage-note.tsx';
import { FinishedNote } from './notes/finished-note.tsx';
import { UnsavedNote } from './notes/unsaved-note.tsx';
import { PrintSheet } from './print/print-sheet.tsx';
import { useBench } from './use-bench.ts';
import { useStable } from './use-stable.ts';

interface Props {
  readonly session: HeaderSession;
  readonly kept: KeptBench;
  /** Told when a conflict was settled by keeping this window's version as a header of its own. */
  readonly onCopied?: (opened: OpenedHeader) => void;
}

/** Drawn again for its own reasons only, whatever the frame around it does. */
export function BenchScreen({ session, kept, onCopied }: Props) {
  const copied = useStable((opened: OpenedHeader) => onCopied?.(opened));
  return <Bench session={session} kept={kept} onCopied={copied} />;
}

const Bench = memo(function Bench({ session, kept, onCopied }: Required<Props>) {
  const entryRef = useRef<HTMLInputElement>(null);
  const bench = useBench(session, entryRef, kept);
  const { header, report, acts, primary } = bench;
  const damage = useSession(session, (state) => state.damage);
  return (
    <main
      className="bench"
      id="screen"
      data-header={header.id}
      style={{ '--primaries': header.primaries.length } as CSSProperties}
    >
      <div className="bench-notes">
        {header.state === 'finished' ? <FinishedNote session={session} /> : null}
        <DamageNote session={session} onCopied={onCopied} />
        <UnsavedNote session={session} />
      </div>
      {primary === null ? (
        <EmptyBench session={session} header={header} report={report} acts={acts} />
      ) : (
        <Places bench={bench} session={session} primary={primary} kept={kept} entryRef={entryRef} />
      )}
      <Conflicts session={session} onCopied={onCopied} />
      <PrintSheet header={header} report={report} damage={damage} />
    </main>
  );
});
