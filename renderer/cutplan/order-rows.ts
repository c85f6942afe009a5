/** What to order for the pieces that are short: stock that covers them at the least cost, and net sizes where the shelf knows of none. */

import { isProvenLeast, type StockItem } from '../../core/index.ts';
import { type PlacedPieces, pieceMark } from './list/plan-pieces.ts';
import { shortageRows } from './shortage-rows.ts';
import type { MadePlan } from './use-cut-plan.ts';

export interface OrderRow {
  /** With the count to order, and the pieces that wait for it as its note. */
  readonly item: StockItem;
  /** It need only be at least this large: no row of the shelf covers the pieces. */
  readonly isNet: boolean;
}

type Short = Pick<MadePlan, 'headers' | 'plan' | 'stock' | 'order'>;

export function orderRows({ headers, plan, stock, order }: Short, pieces: PlacedPieces): readonly OrderRow[] {
  const uncovered = order === null ? plan.short : order.plan.short;
  const net = shortageRows(headers, pieces, uncovered).map((item) => ({ item, isNet: true }));
  if (order === null) return net;
  const covered = stock.flatMap((item): readonly OrderRow[] => {
    const opened = order.plan.opened.filter(({ rowId }) => rowId === item.id);
    if (opened.length === 0) return [];
    const given = new Set(
      opened.flatMap(({ stretches }) => stretches.flatMap((one) => (one.kind === 'piece' ? [one.pieceId] : []))),
    );
    const marks = [...pieces.values()].filter(({ id }) => given.has(id)).map(pieceMark);
    return [{ item: { ...item, count: opened.length, note: `for ${marks.join(', ')}` }, isNet: false }];
  });
  return [...covered, ...net];
}

/** `It costs 84.50 in all, and no other order of what the shelf has rows of costs less.`; null where nothing is covered. */
export function orderWords(rows: readonly OrderRow[], order: MadePlan['order']): string | null {
  const covered = rows.filter(({ isNet }) => !isNet).map(({ item }) => item);
  if (order === null || covered.length === 0) return null;
  const unknown = covered.some(({ cost }) => cost === undefined);
  const sum = covered.reduce((total, { cost = 0, count }) => total + cost * count, 0);
  const least = isProvenLeast({
    bounds: order.plan.bounds.filter(({ goal }) => goal === 'shortage' || goal === 'cost'),
  });
  const how = least ? 'no other order of what the shelf has rows of costs less' : 'a cheaper order may be possible';
  // What has no cost counts by its tube, so the sum is only of what has one.
  const what = unknown ? `What has a cost comes to ${sum.toFixed(2)}` : `It costs ${sum.toFixed(2)} in all`;
  return `${what}, and ${how}.`;
}
