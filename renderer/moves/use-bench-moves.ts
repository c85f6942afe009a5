/** What the bench keeps of moves while it is open: options, the move being looked at, and marks of the one just applied. */

import { useEffect, useMemo, useState } from 'react';
import type { Header } from '../../core/index.ts';
import { FIRST_SETTINGS, type MoveSettings } from './move-settings.ts';
import { type MovesPreview, previewOf } from './proposals/moves-preview.ts';
import { NO_MARKS, type PieceMarks } from './proposals/piece-marks.ts';
import type { Proposal } from './proposals/proposal.ts';
import { sharedClient } from './search/shared-client.ts';

export interface BenchMoves {
  readonly settings: MoveSettings;
  /** The proposal that was chosen for the header in hand. */
  readonly chosen: Proposal | null;
  readonly preview: MovesPreview | null;
  /** Of the move being looked at, or of the one applied until something else changes. */
  readonly marks: PieceMarks;
  readonly set: (settings: Partial<MoveSettings>) => void;
  readonly choose: (proposal: Proposal | null) => void;
  /** To be told right after the chosen proposal was applied. */
  readonly applied: (after: Header) => void;
}

interface Choice {
  readonly header: Header;
  readonly primaryId: string | null;
  readonly proposal: Proposal;
}

interface Done {
  readonly after: Header;
  readonly marks: PieceMarks;
}

export function useBenchMoves(header: Header, primaryId: string | null, isOpen: boolean): BenchMoves {
  useWarmWorker();
  const [settings, setSettings] = useState(FIRST_SETTINGS);
  const [choice, setChoice] = useState<Choice | null>(null);
  const [done, setDone] = useState<Done | null>(null);
  // Another primary, another header or another panel, and it is not what is looked at any more.
  const isHere = choice?.header === header && choice.primaryId === primaryId && isOpen;
  const chosen = isHere && choice !== null ? choice.proposal : null;
  const preview = useMemo(() => previewOf(chosen, header), [chosen, header]);
  const marks = preview?.marks ?? (done?.after === header ? done.marks : NO_MARKS);
  return {
    settings,
    chosen,
    preview,
    marks,
    set: (change) => setSettings((before) => ({ ...before, ...change })),
    choose: (proposal) => setChoice(proposal === null ? null : { header, primaryId, proposal }),
    applied: (after) => {
      setDone({ after, marks });
      setChoice(null);
    },
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
