/** Makes one step of the stock book of a list of changes: all of them, or none and why. */

import type { Problem } from '../../problem.ts';
import { assertNever, failure, type Result, success } from '../../result.ts';
import { mmOf } from '../../units/length.ts';
import { stockItemProblems } from '../check-stock-item.ts';
import { SAME_ANGLE_DEG, SAME_SIZE_MM } from '../shelf-match.ts';
import type { StockItem } from '../stock-item.ts';
import type { StockProblem } from '../stock-problem.ts';
import { stockItemWords } from '../stock-words.ts';
import { BookPage } from './book-page.ts';
import type { ShelfChange } from './shelf-change.ts';
import type { FindRow, ShelfRow, ShelfStep } from './shelf-row.ts';

/**
 * The step that makes `changes`, in their order.
 *
 * Refused whole: a row that is not on the shelf or is at another revision, an item that no tube can be, more pieces gone than
 * there are, and remnants with more degrees or length than was cut. Linear in the changes.
 */
export function enterChanges(found: FindRow, changes: readonly ShelfChange[]): Result<ShelfStep, Problem> {
  const page = new BookPage(found);
  for (const change of changes) {
    const entered = enter(page, change);
    if (!entered.ok) return entered;
  }
  const overcut = remnantsThatDoNotFit(page, changes);
  return overcut.length > 0 ? failure(...overcut) : success(page.step());
}

function enter(page: BookPage, change: ShelfChange): Result<unknown, Problem> {
  switch (change.kind) {
    case 'add':
      return add(page, change.item);
    case 'set':
      return set(page, change);
    case 'retire': {
      const row = rowAt(page, change.itemId, change.revision);
      if (!row.ok) return row;
      const { item } = row.value;
      page.put(item, true);
      return page.move(item.id, -item.count, 'scrapped');
    }
    case 'move': {
      const row = page.row(change.itemId);
      if (row === undefined || row.isRetired) return notOnShelf(change.itemId);
      return page.move(change.itemId, change.reason === 'received' ? change.pieces : -change.pieces, change.reason);
    }
    default:
      return assertNever(change);
  }
}

function add(page: BookPage, item: StockItem): Result<unknown, Problem> {
  const problems = stockItemProblems(item);
  if (problems.length > 0) return failure(...problems);
  const there = page.row(item.id);
  if (there !== undefined && !there.isRetired)
    return failure({ kind: 'changedElsewhere', expected: 0, found: there.revision });
  page.put(item, false);
  return page.move(item.id, item.count, item.cutFrom === undefined ? 'received' : 'cut');
}

function set(page: BookPage, { item, revision }: Extract<ShelfChange, { kind: 'set' }>) {
  const problems = stockItemProblems(item);
  if (problems.length > 0) return failure(...problems);
  const row = rowAt(page, item.id, revision);
  if (!row.ok) return row;
  page.put(item, false);
  return page.move(item.id, item.count - row.value.item.count, 'counted');
}

/** The row, if it is on the shelf and at the revision that the caller knows. */
function rowAt(page: BookPage, itemId: string, expected: number): Result<ShelfRow, Problem> {
  const row = page.row(itemId);
  if (row === undefined || row.isRetired) return notOnShelf(itemId);
  if (row.revision !== expected) return failure({ kind: 'changedElsewhere', expected, found: row.revision });
  return success(row);
}

function notOnShelf(id: string): Result<never, Problem> {
  return failure({ kind: 'notFound', what: 'stockItem', id });
}

/** For each row that something is cut from in these changes, whether what is kept of it is more than was cut. */
function remnantsThatDoNotFit(page: BookPage, changes: readonly ShelfChange[]): readonly StockProblem[] {
  const cut = new Map<string, number>();
  for (const change of changes)
    if (change.kind === 'move' && change.reason === 'cut')
      cut.set(change.itemId, (cut.get(change.itemId) ?? 0) + change.pieces);
  return [...cut].flatMap(([itemId, pieces]) => {
    const source = page.row(itemId)?.item;
    const remnants = changes.flatMap((change) =>
      change.kind === 'add' && change.item.cutFrom === itemId ? [change.item] : [],
    );
    return source === undefined ? [] : tooMuchKept(source, pieces, remnants);
  });
}

/** Of a straight its length. Of a bend its degrees, and the straight tube of its legs, which may also come off by itself. */
function tooMuchKept(source: StockItem, pieces: number, remnants: readonly StockItem[]): readonly StockProblem[] {
  const item = stockItemWords(source);
  const sum = (sizeOf: (item: StockItem) => number) =>
    remnants.reduce((total, remnant) => total + sizeOf(remnant) * remnant.count, 0);
  const mm = {
    of: 'straight',
    kept: sum(straightMmOf),
    cut: straightMmOf(source) * pieces,
    slack: SAME_SIZE_MM,
  } as const;
  const degrees = { of: 'bend', kept: sum(degreesIn), cut: degreesIn(source) * pieces, slack: SAME_ANGLE_DEG } as const;
  return [mm, degrees].flatMap(({ of, kept, cut, slack }) =>
    kept <= cut + slack ? [] : [{ kind: 'remnantTooLarge', item, of, kept, cut } as const],
  );
}

function straightMmOf(item: StockItem): number {
  return item.kind === 'straight' ? mmOf(item.length) : mmOf(item.legs[0]) + mmOf(item.legs[1]);
}

function degreesIn(item: StockItem): number {
  return item.kind === 'bend' ? item.angleDeg : 0;
}
