/** What the bench keeps of moves while it is open: options, and the move being looked at, before or after. */

import { useEffect, useMemo, useState } from 'react';
import type { Header } from '../../core/index.ts';
import { FIRST_PRICES, type MovePrices } from './move-prices.ts';
import { FIRST_SETTINGS, type MoveSettings } from './move-settings.ts';
import { type ChangedPieces, type MovesPreview, NO_CHANGES, previewOf } from './proposals/moves-preview.ts';
import { NO_MARKS, type PieceMarks } from './proposals/piece-marks.ts';
import type { Proposal } from './proposals/proposal.ts';
import { sharedClient } from './search/shared-client.ts';

export interface BenchMoves {
  readonly settings: MoveSettings;
  /** The shop's own, and whether they decide. */
  readonly prices: MovePrices;
  readonly setPrices: (prices: MovePrices) => void;
  /** The proposal that was chosen for the header in hand. */
  readonly chosen: Proposal | null;
  /** Null also while the header is looked at as it is before the move. */
  readonly preview: MovesPreview | null;
  readonly isBefore: boolean;
  /** Of the move being looked at. */
  readonly marks: PieceMarks;
  readonly changed: ChangedPieces;
  readonly set: (settings: Partial<MoveSettings>) => void;
  readonly choose: (proposal: Proposal | null) => void;
  /** From the header as it would be to the header as it is, and back. */
  readonly flip: () => void;
}

interface Choice {
  readonly header: Header;
  readonly primaryId: string | null;
  readonly proposal: Proposal;
}

interface Looked {
  readonly header: Header;
  readonly primaryId: string | null;
  /** The moves panel is open. */
  readonly isOpen: boolean;
}

interface Prices {
  readonly kept: MovePrices | null;
  readonly keep: (prices: MovePrices) => void;
}

export function useBenchMoves({ header, primaryId, isOpen }: Looked, { kept, keep }: Prices): BenchMoves {
  useWarmWorker();
  const [settings, setSettings] = useState(FIRST_SETTINGS);
  const [choice, setChoice] = useState<Choice | null>(null);
  const [isBefore, setIsBefore] = useState(false);
  // Another primary, another header or another panel, and it is not what is looked at any more.
  const isHere = choice?.header === header && choice.primaryId === primaryId && isOpen;
  const chosen = isHere && choice !== null ? choice.proposal : null;
  const after = useMemo(() => previewOf(chosen, header), [chosen, header]);
  const preview = isBefore ? null : after;
  return {
    settings,
    prices: kept ?? FIRST_PRICES,
    setPrices: keep,
    chosen,
    preview,
    isBefore: isBefore && after !== null,
    marks: preview?.marks ?? NO_MARKS,
    changed: preview?.changed ?? NO_CHANGES,
    set: (change) => setSettings((before) => ({ ...before, ...change })),
    choose: (proposal) => {
      setChoice(proposal === null ? null : { header, primaryId, proposal });
      setIsBefore(false);
    },
    flip: () => setIsBefore((was) => !was),
  };
}

/** Long after the bench is ready for typing, and before anyone is likely to ask. */
const WARM_UP_AFTER_MS = 2_000;

function useWarmWorker(): void {
  useEffect(() => {
    const timer = setTimeout(() => sharedClient()?.warmUp(), WARM_UP_AFTER_MS);
    return () => clearTimeout(timer);
  }, []);
}
