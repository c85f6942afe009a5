/** What the shelf has for moves: less what the planned pieces of other runners will be cut from. */

import { useEffect, useMemo, useState } from 'react';
import {
  cutProblemOf,
  type Header,
  type SawSettings,
  type StockItem,
  stockLeft,
  stockOfPieces,
} from '../../core/index.ts';
import type { RequestOf } from '../../electron/bridge/contract.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { freshId } from '../ui/random-id.ts';

interface Asked {
  readonly session: HeaderSession;
  readonly header: Header;
  readonly stock: readonly StockItem[] | null;
  readonly saw: SawSettings;
}

/** The best plan found by then is near enough to say what is left. */
const LIMIT_SECONDS = 5;

/**
 * The whole shelf until the plan is there, and where no other runner has anything planned.
 * @param changing ids of the primaries that moves are looked for: their own planned pieces may become others
 */
export function useStockLeft(
  { session, header, stock, saw }: Asked,
  changing: readonly string[],
): readonly StockItem[] | null {
  const wanted = useMemo(() => {
    if (stock === null) return null;
    const others = { ...header, primaries: header.primaries.filter(({ id }) => !changing.includes(id)) };
    const problem = cutProblemOf([others], stock, saw);
    const opened = stockOfPieces(problem);
    return problem.pieces.length === 0 || opened.length === 0 ? null : JSON.stringify({ ...problem, stock: opened });
  }, [header, stock, saw, changing]);
  const [left, setLeft] = useState<{ readonly of: string; readonly stock: readonly StockItem[] } | null>(null);
  useEffect(() => {
    if (wanted === null || stock === null) return;
    const planId = freshId();
    let isWanted = true;
    const problem = JSON.parse(wanted) as RequestOf<'planCuts'>['problem'];
    const { bridge } = session;
    const asked = bridge.call('planCuts', { planId, problem, limitSeconds: LIMIT_SECONDS }).catch(() => null);
    void asked.then((answer) => {
      if (isWanted && answer?.ok === true) setLeft({ of: wanted, stock: stockLeft(stock, problem, answer.value.plan) });
    });
    return () => {
      isWanted = false;
      void bridge.call('stopCutPlan', { planId }).catch(() => null);
    };
  }, [session, wanted, stock]);
  return wanted !== null && left?.of === wanted ? left.stock : stock;
}
