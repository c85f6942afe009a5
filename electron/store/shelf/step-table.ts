/** The steps of the stock book: what was done to the shelf in one go, and which of it can be turned back. */

import type Database from 'better-sqlite3';
import * as z from 'zod';
import type { KeptRow } from '../../../core/index.ts';
import type { StoredRow } from '../rows/columns.ts';
import { isIntact, readCell, rowTable } from '../rows/row-table.ts';
import { keptItemSchema } from './kept-item.ts';

export type StepRow = StoredRow<'shelf_steps'>;

/** The newest step and the checksum of its row: who knows both knows the shelf as it is. */
export interface Mark {
  readonly place: number;
  readonly checksum: number;
}

const keptState = z.strictObject({ item: keptItemSchema.nullable(), isRetired: z.boolean() });
const touchedSchema = z.array(z.strictObject({ itemId: z.string(), before: keptState.nullable(), after: keptState }));

/** The newest `do` that stands: it was not undone, or done again since. */
const NEXT_UNDO = `SELECT * FROM shelf_steps AS s WHERE action = 'do' AND coalesce((SELECT action FROM shelf_steps
  WHERE of_place = s.place ORDER BY place DESC LIMIT 1), 'redo') = 'redo' ORDER BY place DESC`;

/** What was undone last and not done again, with nothing new done since. */
const NEXT_REDO = `SELECT s.* FROM shelf_steps AS u JOIN shelf_steps AS s ON s.place = u.of_place WHERE u.action = 'undo'
  AND u.place > (SELECT place FROM shelf_steps WHERE action = 'do' ORDER BY place DESC LIMIT 1)
  AND NOT EXISTS (SELECT 1 FROM shelf_steps WHERE of_place = u.of_place AND place > u.place) ORDER BY u.place DESC`;

export function stepTable(db: Database.Database) {
  const rows = rowTable(db, 'shelf_steps', ['place']);
  const newest = db.prepare<[], Mark>('SELECT place, checksum FROM shelf_steps ORDER BY place DESC LIMIT 1');
  const checksumAt = db.prepare<[number], number>('SELECT checksum FROM shelf_steps WHERE place = ?').pluck();
  const next = {
    undo: db.prepare<[], StepRow>(NEXT_UNDO),
    redo: db.prepare<[], StepRow>(NEXT_REDO),
  };
  const byId = db.prepare<[string], StepRow>('SELECT * FROM shelf_steps WHERE id = ?');
  const lastOf = db.prepare<[number], StepRow>(
    'SELECT * FROM shelf_steps WHERE of_place = ? ORDER BY place DESC LIMIT 1',
  );
  return {
    append: rows.insert,
    newest: (): Mark => newest.get() ?? { place: 0, checksum: 0 },
    /** Whether the step that the mark names is still one of the book, and not one that was rolled back. */
    has: ({ place, checksum }: Mark): boolean => place === 0 || checksumAt.get(place) === checksum,
    /** What undo or redo comes to next; steps that are damaged are passed over. */
    next(action: 'undo' | 'redo'): StepRow | null {
      for (const row of next[action].iterate()) if (isIntact('shelf_steps', row)) return row;
      return null;
    },
    /** A step that was done, if it is there and sound. */
    done(place: number): StepRow | null {
      const row = sound(rows.find(place));
      return row?.action === 'do' ? row : null;
    },
    /** How a step was done last: itself, or the redo after its last undo; null while it is undone or where that is damaged. */
    standing(step: StepRow): StepRow | null {
      const last = lastOf.get(step.place);
      if (last === undefined) return step;
      return last.action === 'redo' && isIntact('shelf_steps', last) ? last : null;
    },
    /** By its id, if it is there and sound. */
    ofId: (id: string): StepRow | null => sound(byId.get(id)),
    /** The id of the step itself, or of the undo or redo that turned it last. */
    idOfLast: (place: number): string | null => (lastOf.get(place) ?? rows.find(place))?.id ?? null,
    isUndone: (step: StepRow): boolean => lastOf.get(step.place)?.action === 'undo',
  };
}

function sound(row: StepRow | undefined): StepRow | null {
  return row && isIntact('shelf_steps', row) ? row : null;
}

/** What a step did to rows; null when it cannot be told. */
export function touchedRows(step: StepRow): readonly KeptRow[] | null {
  return readCell(touchedSchema, step.touched);
}
