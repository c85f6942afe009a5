/** What the frame and every screen share: where we are, the open header, preferences, imports, and the dialog in front. */

import { useCallback, useEffect, useMemo, useState } from 'react';
import { SAW_AT_FIRST, sawOf } from '../../core/index.ts';
import type { Start } from '../backups/cannot-open.tsx';
import type { BenchSizes, BoardOrder, KeptBench } from '../bench/layout/bench-sizes.ts';
import { type Imports, useImport } from '../headers/importing/use-import.ts';
import { useBridge } from '../host/host-bridge.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { useNotice } from '../ui/notices.tsx';
import { type Screen, useScreen } from '../ui/screen.ts';
import { type Going, useGoing } from './opening/use-going.ts';
import { type AskedAhead, type OpenHeader, useOpenHeader } from './opening/use-open-header.ts';
import { useSafeLeaving } from './opening/use-safe-leaving.ts';
import { type Preferences, usePreferences, useStandpoints } from './preferences/preferences.ts';

export type ReadyStart = Extract<Start, { state: 'ready' }>;

export type DialogName =
  | 'search'
  | 'keys'
  | 'preferences'
  | 'backups'
  | 'finish'
  | 'newHeader'
  | 'exportFinished'
  | 'bringBack'
  | 'backUpEverything'
  | 'restoreEverything';

export interface Workshop {
  readonly screen: Screen;
  readonly goTo: (screen: Screen) => void;
  readonly open: OpenHeader;
  /** The open header's session; null while none is open. */
  readonly session: HeaderSession | null;
  readonly going: Going;
  /** Where "Bench" leads. */
  readonly benchScreen: Screen;
  readonly imports: Imports;
  readonly preferences: Preferences;
  readonly keptBench: KeptBench;
  readonly changePreferences: (change: Partial<Preferences>) => void;
  readonly dialog: DialogName | null;
  readonly setDialog: (dialog: DialogName | null) => void;
  readonly isRenaming: boolean;
  readonly setRenaming: (isRenaming: boolean) => void;
  /** Brings in all that is held; ends when it is on disk. */
  readonly flush: () => Promise<void>;
}

/** The header of last time, or the list to choose one from. */
function benchScreenOf(lastHeaderId: string | null): Screen {
  return lastHeaderId === null ? { kind: 'headers' } : { kind: 'bench', headerId: lastHeaderId };
}

export function useWorkshop(start: ReadyStart, ahead: AskedAhead | null): Workshop {
  const bridge = useBridge();
  const open = useOpenHeader(bridge, { lastHeaderId: start.lastHeaderId, ahead });
  const session = open.state.kind === 'open' ? open.state.session : null;
  const [screen, goTo] = useScreen(benchScreenOf(start.lastHeaderId));
  const { standpoints: _standpoints, ...atStart } = start.preferences;
  const [preferences, changePreferences] = usePreferences(bridge, atStart);
  const standpoints = useStandpoints(bridge, start.preferences, preferences);
  const keptBench = useMemo(
    () => ({
      sizes: preferences.sizes ?? {},
      keep: (sizes: BenchSizes) => changePreferences({ sizes }),
      boardOrder: preferences.boardOrder ?? ('port' as const),
      keepOrder: (boardOrder: BoardOrder) => changePreferences({ boardOrder }),
      standpoints,
      movePrices: preferences.movePrices ?? null,
      saw: sawOf(preferences.saw ?? SAW_AT_FIRST),
      keepMovePrices: (movePrices: NonNullable<KeptBench['movePrices']>) => changePreferences({ movePrices }),
    }),
    [
      preferences.sizes,
      preferences.boardOrder,
      preferences.movePrices,
      preferences.saw,
      changePreferences,
      standpoints,
    ],
  );
  const [dialog, setDialog] = useState<DialogName | null>(null);
  const [isRenaming, setRenaming] = useState(false);
  const going = useGoing(open, goTo);
  const imports = useImport({ session, onShelf: screen.kind === 'shelf', onOpened: going.openGiven, goTo });
  const flushSession = useSafeLeaving(bridge, session);
  const flush = useCallback(async () => {
    standpoints.flush();
    await flushSession();
  }, [standpoints, flushSession]);
  useNoticesAtStart(start.notices);
  useBenchFollowsAddress({ screen, open, session, goTo });
  return {
    screen,
    goTo,
    open,
    session,
    going,
    benchScreen: benchScreenOf(open.lastHeaderId),
    imports,
    preferences,
    keptBench,
    changePreferences,
    dialog,
    setDialog,
    isRenaming,
    setRenaming,
    flush,
  };
}

function useNoticesAtStart(notices: readonly string[]): void {
  const say = useNotice();
  useEffect(() => {
    if (notices.length > 0) say({ text: notices.join(' '), tone: 'trouble' });
  }, [notices, say]);
}

/** A screen of a header reached by Back, a link or at start opens the header that its address names, unless the one in hand must stay. */
function useBenchFollowsAddress({
  screen,
  open,
  session,
  goTo,
}: Pick<Workshop, 'screen' | 'open' | 'session' | 'goTo'>): void {
  const say = useNotice();
  const wanted = 'headerId' in screen ? screen.headerId : null;
  const { state } = open;
  const hasFailed = state.kind === 'failed' && state.headerId === wanted;
  const isWanted = wanted !== null && session?.headerId !== wanted && !hasFailed;
  const stay = useCallback(
    (reason: string) => {
      say({ text: reason, tone: 'trouble' });
      if (session !== null) goTo({ kind: 'bench', headerId: session.headerId });
    },
    [say, session, goTo],
  );
  const acts = useMemo(() => ({ open: open.open, whyItMustStay: open.whyItMustStay }), [open.open, open.whyItMustStay]);
  useEffect(() => {
    if (!isWanted) return;
    const reason = acts.whyItMustStay();
    if (reason === null) void acts.open(wanted);
    else stay(reason);
  }, [isWanted, wanted, acts, stay]);
}
