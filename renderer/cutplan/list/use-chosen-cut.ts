/** The chosen cut, which goes with the piece in hand: choosing one takes its piece in hand, and the piece in hand has its cut chosen at first. */

import { useCallback, useState } from 'react';
import { cutList, type KeptPlan } from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { pieceInHand, takeInHand } from '../../session/piece-in-hand.ts';
import type { ChosenCut } from './cut-list.tsx';
import { piecesOf } from './stock-work.tsx';

export function useChosenCut(
  session: HeaderSession,
  made: KeptPlan,
): readonly [ChosenCut | null, (chosen: ChosenCut) => void] {
  const [chosen, setChosen] = useState(() => cutOfPiece(made, pieceInHand(session)));
  const choose = useCallback(
    (next: ChosenCut) => {
      setChosen(next);
      const [planned] = piecesAt(made, next);
      const placed = made.pieces.find(({ id }) => id === planned);
      if (placed !== undefined) takeInHand(session, placed.piece.id);
    },
    [session, made],
  );
  return [chosen, choose];
}

function piecesAt({ problem, plan }: KeptPlan, { item, step }: ChosenCut): readonly string[] {
  const work = cutList(problem, plan).find(({ row, copy }) => `${row.id} ${copy}` === item);
  return work === undefined ? [] : piecesOf(work, step);
}

function cutOfPiece(made: KeptPlan, pieceId: string | null): ChosenCut | null {
  const planned = made.pieces.find(({ piece }) => piece.id === pieceId)?.id;
  if (planned === undefined) return null;
  for (const work of cutList(made.problem, made.plan)) {
    const step = work.steps.findIndex((_, at) => piecesOf(work, at).includes(planned));
    if (step !== -1) return { item: `${work.row.id} ${work.copy}`, step };
  }
  return null;
}
