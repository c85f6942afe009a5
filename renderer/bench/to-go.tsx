/** Where the inlet lies from the end of the primary in hand, and the piece or two that would finish it, taken by one key. */

import { useDeferredValue, useMemo } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import {
  addPiecesEdit,
  type Finish,
  finishPrimary,
  formatQuickEntry,
  type Header,
  type PrimaryMatch,
  pieceFromQuick,
  type StockItem,
  toGoWords,
  unitOf,
} from '../../core/index.ts';
import { COMMANDS } from '../../electron/bridge/commands.ts';
import { showChord } from '../commands/key-chord.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { FigureText } from '../ui/figure-text.tsx';
import { useNotice } from '../ui/notices.tsx';
import { primaryTitle } from '../ui/words/verdict-words.ts';
import type { BenchView } from './bench-view.ts';
import type { BenchActs } from './use-bench-acts.ts';
import { useStable } from './use-stable.ts';

interface Props {
  readonly header: Header;
  readonly match: PrimaryMatch;
  /** Null: the shelf was not read. */
  readonly stock: readonly StockItem[] | null;
  readonly onTake: () => void;
}

const FINISH_KEY = COMMANDS.finishPrimary.keys?.[0];

/** Nothing for a primary whose end is in its inlet, or lies nowhere yet. */
export function ToGoLine({ header, match, stock, onTake }: Props) {
  // What was typed is drawn first.
  const seen = useDeferredValue(header);
  const { primaryId, building, standing } = match;
  const isOpen = building?.kind === 'openEnd' || standing === 'empty';
  const finish = useMemo(
    () => (isOpen ? finishPrimary(seen, primaryId, stock) : null),
    [isOpen, seen, primaryId, stock],
  );
  if (finish === null) return null;
  const typed = typedPieces(finish, header);
  return (
    <div className="to-go-line">
      <p>
        <FigureText text={toGoWords(finish.toGo, header.settings.display)} />
      </p>
      {typed === null ? null : (
        <AriaButton className="button button-quiet to-go-take" onPress={onTake}>
          Finish with <code>{typed}</code>
          {FINISH_KEY === undefined ? null : <kbd className="key">{showChord(FINISH_KEY)}</kbd>}
        </AriaButton>
      )}
    </div>
  );
}

/** As the entry line takes them; null where there are none. */
function typedPieces({ pieces }: Finish, { settings: { display, clr } }: Header): string | null {
  const context = { unit: unitOf(display), clr };
  return pieces === null ? null : pieces.map((piece) => formatQuickEntry(piece, context)).join('; ');
}

interface Reach {
  readonly session: HeaderSession;
  readonly view: BenchView;
  readonly acts: BenchActs;
  readonly stock: readonly StockItem[] | null;
}

/** Puts the piece or two that finish the primary in hand at its end, planned; says so where there are none. */
export function useFinish({ session, view, acts, stock }: Reach): () => void {
  const notice = useNotice();
  return useStable(() => {
    const { header } = session.getState();
    const primary = header.primaries.find(({ id }) => id === view.primaryId);
    if (primary === undefined) return;
    const pieces = finishPrimary(header, primary.id, stock)?.pieces ?? null;
    if (pieces === null) {
      notice({ text: `No piece or two would finish ${primaryTitle(primary.name)}. Moves proposes the rest of it.` });
      return;
    }
    const planned = pieces.map((quick) => ({
      ...pieceFromQuick(quick, session.newId()),
      state: 'planned' as const,
    }));
    acts.apply(addPiecesEdit(primary, planned, primary.pieces.length));
  });
}
