/** The append-only journal of edits, the stacks of undo and redo that follow from it, and the first documents. */

import type Database from 'better-sqlite3';
import { applyCheckedEdit, type Edit, editSchema, type Header, headerSchema } from '../../../core/index.ts';
import { DamagedRow } from '../file/faults.ts';
import { cellOf, intactRow } from '../rows/read-row.ts';
import { rowInsert } from '../rows/row-writes.ts';
import { PLACES_PER_HEADER } from '../schema/schema-v4.ts';
import { type RowRevisions, revisionsText } from './row-revisions.ts';
import { itemsOf, pushed, type Stack } from './stack.ts';

export interface HistoryStep {
  readonly label: string;
  readonly edit: Edit;
  readonly inverse: Edit;
}

/** A step as it is written, with what it makes of the header. */
export interface JournalEntry extends HistoryStep {
  /** Of the header, as its row has it. */
  readonly number: number;
  readonly revision: number;
  readonly stepId: string;
  readonly action: 'do' | 'undo' | 'redo';
  /** Of the `do` that an undo or redo is about. */
  readonly ofRevision: number | null;
  /** A label for people. */
  readonly changedAt: Date;
  readonly pieceCount: number;
  readonly rows: RowRevisions;
}

/** Revisions of the `do` steps that can be taken back, and of those that can be brought back; the top one is next. */
export interface Stacks {
  readonly undo: Stack<number>;
  readonly redo: Stack<number>;
}

export interface EditRow {
  readonly place: number;
  readonly revision: number;
  readonly step_id: string;
  readonly action: 'do' | 'undo' | 'redo';
  readonly of_revision: number | null;
  readonly label: string;
  readonly edit: string;
  readonly inverse: string;
  /** Null, as the next two, in steps of version 4 and before, save the newest of each header then. */
  readonly changed_at: number | null;
  readonly piece_count: number | null;
  readonly row_revisions: string | null;
  readonly checksum: number;
}
type ActionRow = Pick<EditRow, 'revision' | 'action' | 'of_revision'>;

/** Places of the steps of a header in a query on `headers`. */
const PLACES = `headers.number * ${PLACES_PER_HEADER} AND headers.number * ${PLACES_PER_HEADER} + ${PLACES_PER_HEADER - 1}`;
/** All steps of the header with the given id, in order. */
const OF_HEADER = `FROM headers JOIN edits ON place BETWEEN ${PLACES} WHERE headers.id = ? ORDER BY place`;
/** Completes a query on `headers` for a cell of the newest step of each; null when it has none. */
export const OF_NEWEST_STEP = `FROM edits WHERE place BETWEEN ${PLACES} ORDER BY place DESC LIMIT 1`;

/** Where the step that made a revision of a header is in the journal. */
const placeOf = (number: number, revision: number) => number * PLACES_PER_HEADER + revision;

function statementsOn(db: Database.Database) {
  const insert = rowInsert(db, 'edits');
  const all = db.prepare<[string], EditRow>(`SELECT edits.* ${OF_HEADER}`);
  const one = db.prepare<[number], EditRow>('SELECT * FROM edits WHERE place = ?');
  const actions = db.prepare<[string], ActionRow>(`SELECT edits.revision, action, of_revision ${OF_HEADER}`);
  const has = db.prepare<[string], 1>('SELECT 1 FROM edits WHERE step_id = ?').pluck();
  const insertBase = rowInsert(db, 'bases');
  const base = db.prepare<[string], { header_id: string; checksum: number; document: string }>(
    'SELECT * FROM bases WHERE header_id = ?',
  );
  return { insert, all, one, actions, has, insertBase, base };
}

export function journal(db: Database.Database) {
  const sql = statementsOn(db);
  return {
    /** False, and nothing is done, when there is a step with this id already. */
    append(entry: JournalEntry): boolean {
      try {
        sql.insert(rowOf(entry));
        return true;
      } catch (cause) {
        // Looked for only now: the table itself refuses such a step, and as good as every one is new.
        if (sql.has.get(entry.stepId) === undefined) throw cause;
        return false;
      }
    },
    /** Of the step that made a revision of the header with the given number; undefined when there is none. */
    stepIdAt: (number: number, revision: number): string | undefined => sql.one.get(placeOf(number, revision))?.step_id,
    stacks: (headerId: string): Stacks => stacksAfter(sql.actions.all(headerId)),
    step({ number, header }: { readonly number: number; readonly header: Header }, revision: number): HistoryStep {
      const row = sql.one.get(placeOf(number, revision));
      if (!row) throw new DamagedRow(`revision ${revision} of header ${header.id} is missing from the journal`);
      return stepOf(header.id, row);
    },
    /** Every step of the two stacks, in their order. Linear in the length of the journal. */
    history(headerId: string): { readonly undo: readonly HistoryStep[]; readonly redo: readonly HistoryStep[] } {
      const rows = sql.all.all(headerId);
      const stacks = stacksAfter(rows);
      const byRevision = new Map(rows.map((row) => [row.revision, row]));
      const steps = (revisions: Stack<number>) =>
        itemsOf(revisions)
          .flatMap((revision) => byRevision.get(revision) ?? [])
          .map((row) => stepOf(headerId, row));
      return { undo: steps(stacks.undo), redo: steps(stacks.redo) };
    },
    keepBase: (header: Header): unknown => sql.insertBase({ header_id: header.id, document: JSON.stringify(header) }),
    /** The document that all of the journal leads to from the first one on; equal to the stored one, or something is wrong. */
    rebuild(headerId: string): Header {
      const first = sql.base.get(headerId);
      if (!first) throw new DamagedRow(`header ${headerId} has no first document`);
      let header: Header = cellOf(
        headerSchema,
        intactRow('bases', first).document,
        `the first document of ${headerId}`,
      );
      for (const row of sql.all.iterate(headerId)) {
        const applied = applyCheckedEdit(header, stepOf(headerId, row).edit);
        if (!applied.ok) throw new DamagedRow(`revision ${row.revision} of header ${headerId} does not apply`);
        header = applied.value.header;
      }
      return header;
    },
  };
}

export type Journal = ReturnType<typeof journal>;

/** The stacks after a list of steps. A new step ends what could be redone. */
function stacksAfter(rows: Iterable<ActionRow>): Stacks {
  let undo: Stack<number> = null;
  let redo: Stack<number> = null;
  for (const { action, revision, of_revision } of rows) {
    if (action === 'do') {
      undo = pushed(undo, revision);
      redo = null;
      continue;
    }
    const from: Stack<number> = action === 'undo' ? undo : redo;
    if (from === null || from.top !== of_revision)
      throw new DamagedRow(`the ${action} at revision ${revision} is out of order`);
    undo = action === 'undo' ? from.below : pushed(undo, from.top);
    redo = action === 'undo' ? pushed(redo, from.top) : from.below;
  }
  return { undo, redo };
}

function rowOf(entry: JournalEntry) {
  return {
    place: placeOf(entry.number, entry.revision),
    step_id: entry.stepId,
    action: entry.action,
    of_revision: entry.ofRevision,
    label: entry.label,
    edit: JSON.stringify(entry.edit),
    inverse: JSON.stringify(entry.inverse),
    changed_at: entry.changedAt.getTime(),
    piece_count: entry.pieceCount,
    row_revisions: revisionsText(entry.rows),
  };
}

function stepOf(headerId: string, row: EditRow): HistoryStep {
  const { label, edit, inverse } = intactRow('edits', row);
  const where = `revision ${row.revision} of header ${headerId}`;
  return { label, edit: cellOf(editSchema, edit, where), inverse: cellOf(editSchema, inverse, where) };
}
