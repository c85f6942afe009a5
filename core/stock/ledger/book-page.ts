/** A step of the stock book while it is made: rows as they would become, and the movements so far. */

import { failure, type Result, success } from '../../result.ts';
import { COUNT_LIMIT } from '../schema.ts';
import type { StockItem } from '../stock-item.ts';
import type { StockProblem } from '../stock-problem.ts';
import { stockItemWords } from '../stock-words.ts';
import type { MovementReason } from './shelf-change.ts';
import type { FindRow, Movement, ShelfRow, ShelfStep } from './shelf-row.ts';

export class BookPage {
  readonly #found: FindRow;
  readonly #rows = new Map<string, { readonly before: ShelfRow | null; readonly after: ShelfRow }>();
  readonly #movements: Movement[] = [];

  constructor(found: FindRow) {
    this.#found = found;
  }

  /** The row as the step has left it so far. */
  row(itemId: string): ShelfRow | undefined {
    return this.#rows.get(itemId)?.after ?? this.#found(itemId);
  }

  /** Puts fields and place of a row, whose count stays what its movements make it. */
  put(item: StockItem, isRetired: boolean): void {
    const before = this.#found(item.id) ?? null;
    const count = this.row(item.id)?.item.count ?? 0;
    const revision = (before?.revision ?? 0) + 1;
    this.#rows.set(item.id, { before, after: { item: { ...item, count }, revision, isRetired } });
  }

  /** Refused when fewer than none would be left, or more than a count may be. The row is there. */
  move(itemId: string, pieces: number, reason: MovementReason): Result<null, StockProblem> {
    const row = this.row(itemId);
    if (row === undefined) throw new Error(`pieces of a row that is not there: ${itemId}`);
    if (pieces === 0) return success(null);
    const count = row.item.count + pieces;
    const item = stockItemWords(row.item);
    if (count < 0) return failure({ kind: 'stockNotEnough', item, has: row.item.count, wanted: -pieces });
    if (count > COUNT_LIMIT) return failure({ kind: 'stockTooMany', item, wanted: count, limit: COUNT_LIMIT });
    this.#movements.push({ itemId, pieces, reason });
    this.put(row.item, row.isRetired);
    const put = this.#rows.get(itemId);
    if (put) this.#rows.set(itemId, { ...put, after: { ...put.after, item: { ...row.item, count } } });
    return success(null);
  }

  step(): ShelfStep {
    return { rows: [...this.#rows.values()], movements: this.#movements };
  }
}
