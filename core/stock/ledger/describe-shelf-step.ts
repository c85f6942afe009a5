/** Names a step of the stock book, as undo and the history of a row show it. */

import { stockItemWords } from '../stock-words.ts';
import type { MovementReason } from './shelf-change.ts';
import type { RowChange, ShelfStep } from './shelf-row.ts';

const MOVED: Readonly<Record<MovementReason, string>> = {
  received: 'Receive',
  cut: 'Cut',
  scrapped: 'Scrap',
  counted: 'Count',
  takenBack: 'Take back',
};

/** `Count 304 stainless 1 3/4" bend, CLR 3", 90 degrees: 4 to 6`; of several rows only how many. */
export function describeShelfStep({ rows, movements }: ShelfStep): string {
  const [row] = rows;
  if (row === undefined || rows.length > 1) return `${wordOf(rows)} ${rows.length} rows`;
  const item = stockItemWords(row.after.item);
  const word = wordOf(rows);
  const [movement] = movements;
  if (word !== 'Change' || movement === undefined) return `${word} ${item}`;
  if (movement.reason === 'counted')
    return `${MOVED.counted} ${item}: ${row.before?.item.count ?? 0} to ${row.after.item.count}`;
  return `${MOVED[movement.reason]} ${Math.abs(movement.pieces)} of ${item}`;
}

function wordOf(rows: readonly RowChange[]): 'Add' | 'Remove' | 'Change' {
  if (rows.every(({ before, after }) => !after.isRetired && (before === null || before.isRetired))) return 'Add';
  return rows.every(({ after }) => after.isRetired) ? 'Remove' : 'Change';
}
