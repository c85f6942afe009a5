/** Makes the step of the stock book that takes another back, or does it again. */

import { failure, type Result, success } from '../../result.ts';
import type { StockItem } from '../stock-item.ts';
import type { StockProblem } from '../stock-problem.ts';
import { stockItemWords } from '../stock-words.ts';
import { BookPage } from './book-page.ts';
import type { FindRow, Movement, ShelfStep } from './shelf-row.ts';

/** A row as a step left it: before and after, without counts, which are the movements' affair. */
export interface KeptRow {
  readonly itemId: string;
  /** Null: the step made the row. */
  readonly before: KeptState | null;
  /** Null: as the row still is. */
  readonly after: KeptState;
}

export interface KeptState {
  /** Null where fields did not change. */
  readonly item: StockItem | null;
  readonly isRetired: boolean;
}

/** What is to be turned back: the step as it was done last, and its movements. */
export interface DoneStep {
  readonly rows: readonly KeptRow[];
  readonly movements: readonly Movement[];
}

/**
 * The step that takes `done` back: rows as they were before it, and the opposite of each movement. A row that it made leaves the shelf.
 *
 * Refused when a row that it changed was changed again since, or when pieces that it brought are gone.
 */
export function takeBack(found: FindRow, { rows, movements }: DoneStep): Result<ShelfStep, StockProblem> {
  const page = new BookPage(found);
  const changed = rows.map(({ itemId, before, after }) =>
    turn(page, itemId, after, before ?? { item: null, isRetired: true }),
  );
  const opposite = movements
    .map((movement): Movement => ({ ...movement, pieces: -movement.pieces, reason: 'takenBack' }))
    .reverse();
  return finish(page, changed, opposite);
}

/** The step that does `done` once more after it was taken back. */
export function doAgain(found: FindRow, { rows, movements }: DoneStep): Result<ShelfStep, StockProblem> {
  const page = new BookPage(found);
  const changed = rows.map(({ itemId, before, after }) =>
    turn(page, itemId, before ?? { item: null, isRetired: true }, after),
  );
  return finish(page, changed, movements);
}

function finish(
  page: BookPage,
  changed: readonly Result<null, StockProblem>[],
  movements: readonly Movement[],
): Result<ShelfStep, StockProblem> {
  const problems = changed.flatMap((one) => (one.ok ? [] : one.problems));
  if (problems.length > 0) return failure(...problems);
  // Pieces come before pieces go, so that a row is never below zero on the way to a count that it can have.
  const inOrder = [...movements].sort((a, b) => Number(a.pieces < 0) - Number(b.pieces < 0));
  for (const { itemId, pieces, reason } of inOrder) {
    const moved = page.move(itemId, pieces, reason);
    if (!moved.ok) return moved;
  }
  const step = page.step();
  const used = step.rows.find(({ after }) => after.isRetired && after.item.count !== 0);
  if (used !== undefined) return failure({ kind: 'stockChangedSince', item: stockItemWords(used.after.item) });
  return success(step);
}

function turn(page: BookPage, itemId: string, from: KeptState, to: KeptState): Result<null, StockProblem> {
  const row = page.row(itemId);
  if (row === undefined) return failure({ kind: 'stockChangedSince', item: itemId });
  const isAsLeft = row.isRetired === from.isRetired && (from.item === null || sameFields(row.item, from.item));
  if (!isAsLeft) return failure({ kind: 'stockChangedSince', item: stockItemWords(row.item) });
  page.put(to.item ?? row.item, to.isRetired);
  return success(null);
}

/** Whether two items are the same but for their counts. */
function sameFields(a: StockItem, b: StockItem): boolean {
  return fieldsText(a) === fieldsText(b);
}

/** The fields of an item but for its count, in one order. */
export function fieldsText(item: StockItem): string {
  const fields = Object.entries(item).filter(([name]) => name !== 'count');
  return JSON.stringify(fields.sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** What is to be kept of a step so that it can be turned back. */
export function keptRows({ rows }: ShelfStep): readonly KeptRow[] {
  return rows.map(({ before, after }) => {
    const isChanged = before !== null && fieldsText(before.item) !== fieldsText(after.item);
    return {
      itemId: after.item.id,
      before: before === null ? null : { item: isChanged ? before.item : null, isRetired: before.isRetired },
      after: { item: isChanged ? after.item : null, isRetired: after.isRetired },
    };
  });
}
