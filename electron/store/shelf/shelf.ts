/** The shelf as a stock book: what lies on it, steps that change it, and the taking back of them. */

import type Database from 'better-sqlite3';
import {
  describeShelfStep,
  doAgain,
  enterChanges,
  type FindRow,
  failure,
  keptRows,
  type Problem,
  type Result,
  type ShelfChange,
  type ShelfStep,
  type StockItem,
  success,
  takeBack,
} from '../../../core/index.ts';
import { rowTable } from '../rows/row-table.ts';
import { keptItem } from './kept-item.ts';
import { type ExplainedMovement, movementTable } from './movement-table.ts';
import { type KnownRow, shelfRows } from './shelf-rows.ts';
import { type StepRow, stepTable, touchedRows } from './step-table.ts';

export interface StoredStockItem {
  readonly item: StockItem;
  readonly revision: number;
  /** A movement of it is damaged, so that the count is of those that are sound. */
  readonly isDoubtful: boolean;
}

/** Who asks for a step, and when. */
export interface StepMade {
  readonly requestId: string;
  readonly at: Date;
}

/** What a step wrote. */
export interface Written {
  readonly step: number;
  readonly stock: readonly StoredStockItem[];
  /** Rows that left the shelf. */
  readonly gone: readonly string[];
}

/** A step as undo and redo offer it. */
export interface NextStep {
  readonly step: number;
  readonly label: string;
}

export type Shelf = ReturnType<typeof shelf>;

type Steps = ReturnType<typeof stepTable>;
type Movements = ReturnType<typeof movementTable>;

export function shelf(db: Database.Database) {
  const steps = stepTable(db);
  const movements = movementTable(db);
  const known = shelfRows(db, { steps, movements });
  const find: FindRow = (itemId) => known().get(itemId)?.row ?? undefined;
  const write = writing(known, writer(db, { steps, movements }));
  return {
    /** What lies on the shelf, in the order in which it was added. Damaged rows are left out; opening the database says that there are some. */
    list: listing(known),
    /** All changes in one step, or none. `because`: what the step is for, where that says more than the changes do. */
    commit(changes: readonly ShelfChange[], because: string, made: StepMade): Result<Written, Problem> {
      const entered = damagedRow(known(), changes) ?? enterChanges(find, changes);
      if (!entered.ok) return entered;
      const label = because === '' ? describeShelfStep(entered.value) : because;
      return success(write(entered.value, { ...made, action: 'do', of: null, label }));
    },
    /** Takes a step back, or does it again: all of it, or nothing and why. */
    turnBack(action: 'undo' | 'redo', place: number, made: StepMade): Result<Written, Problem> {
      const step = steps.done(place);
      const done = step && doneStep(step, action, { steps, movements });
      if (!step || !done) return failure({ kind: 'nothingToUndo', action });
      const turned = (action === 'undo' ? takeBack : doAgain)(find, done);
      if (!turned.ok) return turned;
      return success(write(turned.value, { ...made, action, of: place, label: step.label }));
    },
    /** The step that something of this id did, undid or did again; null where the id is of no step. */
    stepOf(id: string): { readonly place: number; readonly action: StepRow['action'] } | null {
      const row = steps.ofId(id);
      return row && { place: row.of_place ?? row.place, action: row.action };
    },
    /** Id of what was done to a step last: its doing, its undo or its redo; null where there is no such step. */
    idOfLast: (place: number): string | null => steps.idOfLast(place),
    history: () => ({ undo: nextOf(steps.next('undo')), redo: nextOf(steps.next('redo')) }),
    /** What its movements add up to; 0 for a row that has never been. */
    countOf: (itemId: string): number => find(itemId)?.item.count ?? 0,
    movementsOf: (itemId: string): readonly ExplainedMovement[] => movements.explained(itemId),
  };
}

/** Writes a step, and gives its rows with their counts after it. */
function writing(known: () => ReadonlyMap<string, KnownRow>, append: ReturnType<typeof writer>) {
  return (step: ShelfStep, head: StepHead): Written => {
    const place = append(step, head);
    const rows = known();
    const now = step.rows.map(({ after }) => ({ id: after.item.id, stored: storedIn(rows, after.item.id) }));
    const gone = now.filter(({ stored }) => stored.length === 0).map(({ id }) => id);
    return { step: place, stock: now.flatMap(({ stored }) => stored), gone };
  };
}

/** The list is made once for each state of the shelf. */
function listing(known: () => ReadonlyMap<string, KnownRow>): () => readonly StoredStockItem[] {
  let listed: { readonly rows: ReadonlyMap<string, KnownRow>; readonly stock: readonly StoredStockItem[] } | null =
    null;
  return () => {
    const rows = known();
    if (listed?.rows !== rows) listed = { rows, stock: [...rows.values()].flatMap(storedOf) };
    return listed.stock;
  };
}

/** Refuses a change that would be written over a damaged row; null where there is none. */
function damagedRow(
  rows: ReadonlyMap<string, KnownRow>,
  changes: readonly ShelfChange[],
): Result<never, Problem> | null {
  const damaged = changes
    .flatMap((change) => (change.kind === 'add' ? (rows.get(change.item.id) ?? []) : []))
    .find(({ row }) => row === null);
  return damaged === undefined ? null : failure({ kind: 'changedElsewhere', expected: 0, found: damaged.revision });
}

function nextOf(step: StepRow | null): NextStep | null {
  return step && { step: step.place, label: step.label };
}

function storedIn(rows: ReadonlyMap<string, KnownRow>, id: string): StoredStockItem[] {
  const known = rows.get(id);
  return known === undefined ? [] : storedOf(known);
}

function storedOf({ row, isDoubtful }: KnownRow): StoredStockItem[] {
  if (row === null || row.isRetired) return [];
  const item = row.item.count < 0 ? { ...row.item, count: 0 } : row.item;
  return [{ item, revision: row.revision, isDoubtful }];
}

/** What a step did: its rows, and the movements of when it was done last. Null where there is nothing to turn, or where that cannot be told any more. */
function doneStep(
  step: StepRow,
  action: 'undo' | 'redo',
  { steps, movements }: { readonly steps: Steps; readonly movements: Movements },
): Parameters<typeof takeBack>[1] | null {
  if (steps.isUndone(step) !== (action === 'redo')) return null;
  const { first_movement, movement_count } = steps.standing(step) ?? step;
  const rows = touchedRows(step);
  const made = movements.range(first_movement, movement_count);
  if (rows === null || made === null) return null;
  return { rows, movements: made.map(({ item_id, pieces, reason }) => ({ itemId: item_id, pieces, reason })) };
}

interface StepHead extends StepMade {
  readonly action: StepRow['action'];
  readonly of: number | null;
  readonly label: string;
}

/** Writes a step: first what was done, then the rows as they become, then the movements that make their counts so. */
function writer(db: Database.Database, tables: { readonly steps: Steps; readonly movements: Movements }) {
  const stock = rowTable(db, 'stock', ['id']);
  const nextPlace = db.prepare<[], number>('SELECT coalesce(max(place), 0) + 1 FROM stock').pluck();
  return (step: ShelfStep, head: StepHead): number => {
    const place = tables.steps.newest().place + 1;
    const first = tables.movements.last() + 1;
    const at = head.at.getTime();
    tables.steps.append({
      place,
      id: head.requestId,
      action: head.action,
      of_place: head.of,
      label: head.label,
      touched: touchedText(step),
      first_movement: first,
      movement_count: step.movements.length,
      made_at: at,
    });
    for (const { after } of step.rows) {
      const row = { place: stock.find(after.item.id)?.place ?? nextPlace.get() ?? 1, id: after.item.id };
      const item = JSON.stringify(keptItem(after.item));
      stock.put({ ...row, revision: after.revision, step: place, is_retired: after.isRetired ? 1 : 0, item });
    }
    for (const [index, { itemId, pieces, reason }] of step.movements.entries())
      tables.movements.append({
        place: first + index,
        item_id: itemId,
        request_id: head.requestId,
        pieces,
        reason,
        moved_at: at,
      });
    return place;
  };
}

function touchedText(step: ShelfStep): string {
  return JSON.stringify(
    keptRows(step).map(({ itemId, before, after }) => ({
      itemId,
      before: before && { ...before, item: before.item && keptItem(before.item) },
      after: { ...after, item: after.item && keptItem(after.item) },
    })),
  );
}
