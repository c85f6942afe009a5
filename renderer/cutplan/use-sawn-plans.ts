/** Plans of a header that were carried out: reads them, carries one out, and takes one back. */

import { useCallback, useEffect, useState } from 'react';
import { carryOut, cutPieceId, cutPiecesEdit, type Header, keptPlan, shortened } from '../../core/index.ts';
import type { AskedOf, ResponseOf } from '../../electron/bridge/contract.ts';
import { useAsk } from '../host/host-bridge.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { useNotice } from '../ui/notices.tsx';
import { freshId } from '../ui/random-id.ts';
import { countOf } from '../ui/words/spoken.ts';
import type { MadePlan } from './use-cut-plan.ts';

/** Of a header's name in what the stock book says of its plan: with the words before it, no more than a name may have. */
const NAME_ROOM = 100;

const CHANGED_MEANWHILE = 'A header or the shelf was changed meanwhile, so nothing was marked cut. Plan again.';

export type SawnPlan = ResponseOf<'listCutPlans'>['plans'][number];

export interface SawnPlansKeeper {
  /** The newest first; none until they are read. */
  readonly plans: readonly SawnPlan[];
  /** The step of the shelf that it became; null where it was refused, and the reason has been shown. */
  readonly carryOut: (made: MadePlan) => Promise<number | null>;
  /** False where it was refused, and the reason has been shown. */
  readonly takeBack: (step: number) => Promise<boolean>;
}

export function useSawnPlans(session: HeaderSession): SawnPlansKeeper {
  const ask = useAsk();
  const say = useNotice();
  const [plans, setPlans] = useState<readonly SawnPlan[]>([]);
  const { headerId } = session;
  const read = useCallback(async () => {
    const answer = await ask('listCutPlans', { headerId });
    if (answer.ok) setPlans(answer.value.plans);
    else say({ text: answer.words, tone: 'trouble' });
  }, [ask, say, headerId]);
  useEffect(() => void read(), [read]);
  /** Both books have changed: reads what they say now. */
  const catchUp = async () => {
    await session.lookForChanges();
    await read();
  };
  const takeBack = async (step: number) => {
    await session.flush();
    const answer = await ask('turnShelfBack', { action: 'undo', step });
    if (!answer.ok) {
      say({ text: answer.words, tone: 'trouble' });
      return false;
    }
    await catchUp();
    say({ text: 'Taken back: the stock is on the shelf again, and the pieces are planned.' });
    return true;
  };
  return {
    plans,
    async carryOut(made) {
      await session.flush();
      const asked = carryOutRequest(session, made);
      if (asked === null) return null;
      const answer = await ask('carryOutCutPlan', asked);
      if (!answer.ok) {
        const isOld = answer.problems.some(({ kind }) => kind === 'changedElsewhere' || kind === 'notFound');
        say({ text: isOld ? CHANGED_MEANWHILE : answer.words, tone: 'trouble' });
        return null;
      }
      await catchUp();
      const { step } = answer.value;
      const count = made.problem.pieces.length - made.plan.short.length;
      say({ text: `${countOf(count, 'piece')} marked cut, and the stock is off the shelf.` });
      return step;
    },
    takeBack,
  };
}

/** Null where no piece of the plan is still planned. */
function carryOutRequest(session: HeaderSession, made: MadePlan): AskedOf<'carryOutCutPlan'> | null {
  const [, ...others] = made.headers;
  const headers = [
    ...cutOf(made, session.getState().header, session.revision),
    ...others.flatMap((header, at) => cutOf(made, header, made.otherRevisions[at] ?? 0)),
  ];
  if (headers.length === 0) return null;
  const opened = new Set(made.plan.opened.map(({ rowId }) => rowId));
  const names = made.headers.map(({ name }) => name).join(', ');
  return {
    headers,
    changes: [...carryOut({ ...made, stock: made.known }, freshId)],
    known: made.known
      .filter(({ item }) => opened.has(item.id))
      .map(({ item, revision }) => ({ itemId: item.id, revision })),
    because: `Cut plan: ${shortened(names, NAME_ROOM)}`,
    kept: keptPlan({ pieces: made.pieces, stock: made.stock, problem: made.problem, plan: made.plan }),
  };
}

type CutOfHeader = AskedOf<'carryOutCutPlan'>['headers'][number];

/** None where the plan cuts nothing of this header. */
function cutOf({ problem, plan }: MadePlan, header: Header, baseRevision: number): readonly CutOfHeader[] {
  const short = new Set(plan.short);
  const isCut = new Set(problem.pieces.map(({ id }) => id).filter((id) => !short.has(id)));
  const edit = cutPiecesEdit(header, (piece) => isCut.has(cutPieceId(header, piece)));
  return edit === null ? [] : [{ headerId: header.id, baseRevision, edit }];
}
